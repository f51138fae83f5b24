import {
  checkDesign,
  type Design,
  designChanges,
  exampleDesign,
  exampleDesigns,
  readDesign,
  walkOf,
  withChange,
  writeDesign,
} from '@ohmward/frontend'
import { runCommand } from '@ohmward/frontend/command'
import { describe, expect, it } from 'vitest'
import { changeOf, exampleChanges, exampleCheck, exampleProgress, mended } from './shared.js'

describe('changes over the whole design', () => {
  const { changes, pairs, text } = exampleChanges()
  const before = exampleCheck()

  it('name the rows as the whole design does, the switched rail among them', () => {
    const known = before.rows.map(({ id }) => id)
    const moved = changes.flatMap(({ mends, helps, breaks }) => [...mends, ...helps, ...breaks])
    for (const { id } of moved) expect(known).toContain(id)
    const brownOut = changes.find(({ puts }) => 'controller.brownOut' in puts)!
    expect(brownOut.mends.map(({ id }) => id)).toEqual(
      expect.arrayContaining(['decoupling/rail-brown-out', 'decoupling/steady-sag', 'monitor/reset']),
    )
    expect(changes.find(({ id }) => id === 'divider/amplifier')!.mends.map(({ id }) => id)).toContain(
      'divider/headroom',
    )
  })

  it('come in pairs where no single one is enough: the whole design holds with such a one', () => {
    expect(changes.every(({ verdict }) => verdict !== 'holds')).toBe(true)
    expect(pairs.length).toBeGreaterThan(0)
    const [pair] = pairs
    const after = checkDesign(withChange(exampleDesign, pair!), { charges: 12 })
    expect(after.verdict).toBe('holds')
    // What gives way on cells that may be empty by then is told as such.
    expect(after.rows.filter(({ margin }) => margin.verdict !== 'holds').length).toBeGreaterThan(1)
    expect(after.summary).toMatch(/^Holds\. .* \d+ more checks? fails? only below the charge required\./s)
    expect(pair!.usable!.after).toBeCloseTo(after.usable.share, 12)
    expect(pair!.usable!.after).toBeGreaterThanOrEqual(exampleDesign.requirements.usableCharge)
  })

  it('leave every block something to hold: a rise longer than a period of PWM is none', () => {
    const slow = withChange(exampleDesign, { puts: { 'load.rise': '100 ms' } })
    expect(checkDesign(slow, { charges: 2 }).rows.map(({ id }) => id)).toContain('decoupling/PWM/refused')
    expect(changes.flatMap(({ puts }) => puts['load.rise'] ?? [])).not.toContain('100 ms')
    expect(changes.flatMap(({ breaks }) => breaks.map(({ id }) => id)).filter((id) => /refused/.test(id))).toEqual([])
  })

  it('give a protection less resistance only where it trips too soon: it would trip at more', () => {
    const protection = exampleDesign.supply.path!.findIndex(({ name }) => name === 'protection')
    const isOffered = ({ puts }: { readonly puts: object }) => `supply.path.${protection}.resistance` in puts
    expect([...changes, ...pairs].filter(isOffered)).toEqual([])
    const path = exampleDesign.supply.path!.map((one, i) =>
      i === protection ? { ...one, tripVoltage: '0.146 V ±15 %' } : one,
    )
    const early = { ...mended, supply: { ...mended.supply, path } }
    const less = changeOf(early, `path-${protection + 1}`, (id) => id.startsWith('supply/'))!
    expect(isOffered(less)).toBe(true)
    expect(less.mends.map(({ id }) => id)).toContain('supply/trip-of-protection')
  })

  it('tell how far the search is', () => {
    expect(exampleProgress.length).toBeGreaterThan(10)
    expect([...exampleProgress].sort((a, b) => a - b)).toEqual(exampleProgress)
    expect(exampleProgress[0]).toBe(0)
    // Of the 60 checks that were allowed: the second is asked for after one of them, and none beyond the last counts.
    for (const [done, share] of exampleProgress.entries()) expect(share).toBeCloseTo(Math.min(1, done / 60), 12)
    expect(exampleProgress.at(-1)).toBeLessThanOrEqual(1)
    expect(exampleProgress.at(-1)).toBeGreaterThan(0.5)
  })

  it('say what mends, in the words and paths of the design', () => {
    expect(changes.length).toBeGreaterThan(2)
    expect(changes[0]!.mends.length).toBeGreaterThan(0)
    expect(text).not.toBe('')
    const paths = [...changes, ...pairs].flatMap(({ puts }) => Object.keys(puts))
    const folders = ['supply', 'load', 'pwm', 'divider', 'hall', 'mosfet', 'decoupling', 'controller', 'rails', 'lives']
    for (const path of paths) expect(folders).toContain(path.split('.')[0])
  })

  it('are printed in the terminal with what to put and what each breaks', () => {
    const run = (...args: string[]) =>
      runCommand(['change', 'knife.json', ...args], () => writeDesign(exampleDesign), { change: exampleChanges })
    const { exit, out } = run()
    const [best] = changes
    expect(exit).toBe(0)
    expect(out).toContain(`1  ${best!.name}: ${best!.text}`)
    for (const path of Object.keys(best!.puts)) expect(out).toContain(`${path} = `)
    for (const { name } of best!.mends) expect(out).toContain(`mends ${name}`)
    expect(JSON.parse(run('--json').out).changes[0].id).toBe(best!.id)
  })

  /** Slack of a row of a block, from full to the charge that must be usable. */
  const slacksOf = (given: Design) => {
    const walk = walkOf(readDesign(given), { charges: 2 })
    const to = Math.max(walk.charges.at(-1)!, 1 - exampleDesign.requirements.usableCharge)
    const held = walk.over({ charge: { from: 1, to }, ...walk.around })
    return (id: string) => {
      const stage = walk.stages.find((one) => held.ready(one).some((row) => row.id === id))
      return stage && held.margin(stage, id)?.slack
    }
  }

  it('put in and run again give what was promised, to 1 part in 1e9', () => {
    const now = slacksOf(exampleDesign)
    let compared = 0
    for (const change of changes) {
      const then = slacksOf(withChange(exampleDesign, change))
      for (const { id, before, after } of [...change.mends, ...change.helps, ...change.breaks]) {
        const [own, changed] = [now(id), then(id)]
        if (own === undefined || changed === undefined) continue
        expect(Math.abs(own - before), `${change.id}: ${id} before`).toBeLessThanOrEqual(1e-9 * Math.abs(before))
        expect(Math.abs(changed - after), `${change.id}: ${id} after`).toBeLessThanOrEqual(1e-9 * Math.abs(after))
        compared++
      }
    }
    expect(compared).toBeGreaterThan(10)
  })

  it("don't break what they don't name", () => {
    for (const { breaks, verdict } of changes) if (verdict === 'holds') expect(breaks).toEqual([])
  })
})

describe('a load at a rail that its amplifier has not', () => {
  const { mat } = exampleDesigns
  const design: Design = {
    ...mat,
    divider: { ...mat.divider, topology: 'load at rail' },
    mosfet: {
      ...mat.mosfet,
      transistor: {
        ...mat.mosfet.transistor,
        channel: 'N',
        onResistance: '2.5 V: 60 mohm typ 45 mohm; 10 V: 40 mohm typ 31 mohm',
        thresholdVoltage: '1 V ±0.3 V',
        plateauVoltage: '1.8 V',
      },
      drive: {
        kind: 'pin',
        gateResistor: '150 ohm ±1 %',
        resistance: '30 ohm ±30 %',
        sinkResistance: '30 ohm ±30 %',
        currentMaximum: '40 mA',
        pull: { at: 'gate', resistance: '10 kohm ±1 %' },
      },
    },
  }

  it('is said in words, and mended by a switch on the high side, tried as printed', () => {
    const { rows, cautions } = checkDesign(design, { charges: 2 })
    const failing = rows.filter(({ margin }) => margin.verdict === 'fails').map(({ id }) => id)
    expect(failing).toContain('divider/common-mode-high')
    // The inputs stand at 12 V and 5 % more, the amplifier lives on 3.3 V and 1.5 % more.
    expect(cautions.join()).toMatch(
      /on the main rail, puts the amplifier inputs at 12\.6 V.*runs on 3\.35 V from logic/,
    )
    expect(checkDesign(mat, { charges: 2 }).cautions.join()).not.toMatch(/puts the amplifier inputs/)
    const { changes } = designChanges(design, { checks: 12, walked: 0 })
    const high = changes.find(({ name }) => name === 'the load at ground, switched on the high side')!
    expect(high.mends.map(({ id }) => id)).toContain('divider/common-mode-high')
    const after = checkDesign(withChange(design, high), { charges: 2 }).rows
    for (const { id } of high.mends) expect(after.find((row) => row.id === id)?.margin.verdict ?? 'holds').toBe('holds')
  })
})
