import { describe, expect, it } from 'vitest'
import { effort } from '../src/waveform/effort.js'
import { Lately } from '../src/waveform/lately.js'

/** Squares a number at a cost of a hundred steps, and counts how often. */
function squares(places = 8) {
  const lately = new Lately(places, 1)
  const count = { calls: 0 }
  const square = (x: number, more?: number): number => {
    lately.asked[0] = x
    if (more !== undefined) lately.asked[1] = more
    lately.answer(more === undefined ? 1 : 2, () => {
      count.calls++
      effort.spend(100)
      lately.told[0] = x * x
    })
    return lately.told[0]!
  }
  return { square, count }
}

describe('what was worked out lately', () => {
  it('is not worked out again, and costs as many steps', () => {
    const { square, count } = squares()
    const allowance = { left: 1e7 }
    effort.watch(allowance, () => {
      expect([square(3), square(3), square(3)]).toEqual([9, 9, 9])
    })
    expect(count.calls).toBe(1)
    expect(allowance.left).toBe(1e7 - 300)
  })

  it('is known again by several numbers, and by what each came to', () => {
    const lately = new Lately(8, 3)
    let calls = 0
    const allowance = { left: 1e7 }
    const parts = (list: readonly number[]) => {
      list.forEach((x, k) => {
        lately.asked[k] = x
      })
      lately.answer(list.length, () => {
        calls++
        effort.spend(100)
        list.slice(0, 3).forEach((x, k) => {
          lately.told[k] = 10 * x
        })
      })
      return [...lately.told]
    }
    effort.watch(allowance, () => {
      const lists = [
        [3, 7, 9, 4],
        [3, 7, 9, 5],
        [7, 3, 9, 4],
      ]
      for (const list of lists)
        for (let round = 0; round < 2; round++) expect(parts(list)).toEqual(list.slice(0, 3).map((x) => 10 * x))
    })
    expect(calls).toBe(3)
    expect(allowance.left).toBe(1e7 - 600)
  })

  it('is another question with another number, or one more', () => {
    const { square, count } = squares()
    effort.watch({ left: 1e7 }, () => {
      expect([square(3), square(-3), square(3, 0), square(3, 1), square(0.1)]).toEqual([9, 9, 9, 9, 0.1 * 0.1])
    })
    expect(count.calls).toBe(5)
  })

  it('answers right where many questions share few places', () => {
    const { square } = squares(2)
    effort.watch({ left: 1e7 }, () => {
      for (let round = 0; round < 3; round++) for (let x = 0; x < 50; x++) expect(square(x)).toBe(x * x)
    })
  })

  it('is worked out again near the end of what a check may take', () => {
    const { square, count } = squares()
    effort.watch({ left: 1e7 }, () => square(3))
    effort.watch({ left: 1e5 }, () => square(3))
    expect(count.calls).toBe(2)
  })

  it('is no answer for the next one where it was not followed to its end', () => {
    const { square, count } = squares()
    effort.watch({ left: 1e7 }, () => {
      effort.isOpen = true
      square(3)
    })
    effort.watch({ left: 1e7 }, () => square(3))
    expect(count.calls).toBe(2)
  })
})
