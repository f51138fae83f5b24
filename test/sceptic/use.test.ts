import { checkDesign, type DesignAssessment, readDesign, walkOf } from '@ohmward/frontend'
import { InputError } from '@ohmward/quantity'
import { expect, it } from 'vitest'
import { type Assumed, WholeBoard } from './frontend/held.js'
import { type B, BoardInUse } from './frontend/in-use.js'
import { drawUse, type Used } from './frontend/use.js'
import { drawWhole } from './frontend/whole.js'
import { type Box, fixed, largest } from './tools/board.js'
import { count, seed } from './tools/designs.js'
import { Random } from './tools/random.js'
import { Tally } from './tools/tally.js'

/** A design in use takes as long as ten of one block. */
const many = Math.max(3, Math.round(count / 10))

/** The answer; nothing where the supply leaves a block nothing at all. */
function answer({ given }: Used): DesignAssessment | undefined {
  try {
    return checkDesign(given, { charges: 2 })
  } catch (error) {
    if (error instanceof InputError) return undefined
    throw error
  }
}

/** The box of everything that decides a quantity, at any place and at the four corners of temperature and age. */
function worst(used: Used, value: (b: B) => number, random: Random, more: Partial<Box<string>> = {}): number {
  const loop = ['reference', 'switchResistance', 'lead', 'excitation'].map(
    (name) => [`divider ${name}`, used.divider.box[name as 'lead']] as const,
  )
  const box = { ...used.box, ...used.useBox, ...Object.fromEntries(loop), ...more } as unknown as Box<string>
  const { celsius, life } = used.box
  const corners = [0, 2].flatMap((i) =>
    [0, 2].map((k) => ({ celsius: fixed(celsius[i as 0 | 2]), life: fixed(life[k as 0 | 2]) })),
  )
  const all = corners.map((corner) => largest({ ...box, ...corner }, (b) => value(b as B), random, { starts: 2 }).value)
  return Math.max(...all)
}

/** Constants in the firmware, as the answer tells them. */
function assumedOf({ given }: Used) {
  const walk = walkOf(readDesign(given), { charges: 2 })
  const { firmware, around, charges } = walk
  const to = Math.max(charges.at(-1)!, 1 - (walk.design.requirements.usableCharge ?? 0))
  const { own, load, switch: on } = walk.solve({ charge: { from: 1, to }, ...around })
  const assumed: Assumed = { ...firmware, sensor: firmware.sensor }
  return { assumed, load: own.nominal, way: load.nominal - own.nominal + on.nominal, lowest: to }
}

// One test: what a mutant changes is seen where it is asked, and the designs are tried once.
it('a design in use against boards of its own', { timeout: 7_200_000 }, () => {
  const draws = new Random(seed + 55)
  const tally = new Tally('use')
  let answered = 0
  for (let i = 0; i < many; i++) {
    const random = new Random(seed + 3000 + i)
    const used = drawUse(random, drawWhole(draws))
    const a = answer(used)
    if (a === undefined) continue
    answered++
    const { use, plain } = used
    const board = new BoardInUse(used)
    const isCell = plain.source.kind === 'cell'
    const { watch } = use
    const name = `design ${i}: ${plain.source.kind}, ${plain.rails[1].kind} and ${plain.rails[2].kind}, ${watch ? (watch.underLoad ? 'under load' : 'at rest') : 'unwatched'}`
    /** Files the least that a quantity comes to on a board against what is claimed at least. */
    const atLeast = (
      id: string,
      claimed: number,
      value: (b: B) => number,
      scale: number,
      more?: Partial<Box<string>>,
    ) => tally.slack(id, claimed, -worst(used, (b) => -value(b), random, more), scale, name)
    const atMost = (id: string, claimed: number, value: (b: B) => number, scale: number, more?: Partial<Box<string>>) =>
      tally.slack(id, -claimed, -worst(used, value, random, more), scale, name)

    const { firmware: _, lowest, ...constants } = { firmware: 0, ...assumedOf(used) }
    const inUse = { charge: isCell ? ([lowest, 1, 1] as const) : fixed(1) }
    const { power, monitor, standby } = a

    // Power in pulses.
    const mean = (duty: number) => (b: B) => duty * board.pulse(b, duty).power
    atMost('mean power', power.mean.upper, mean(use.duty), power.mean.upper, inUse)
    // What has been stopped is in use no more.
    const going = (b: B) => (isCell && b.charge < board.end(b) ? Number.POSITIVE_INFINITY : mean(use.duty)(b))
    atLeast('mean power, least', power.mean.lower, going, power.mean.lower, inUse)
    const { dutyWithoutReading } = power.limit!
    atMost('duty for a power', use.powerLimit, mean(dutyWithoutReading), use.powerLimit, inUse)
    const { energy, count: bursts, stuck } = power.bursts!
    atMost('energy of a burst', energy[0]!.energy.upper, (b) => mean(use.duty)(b) * use.time, energy[0]!.energy.upper, {
      charge: fixed(1),
    })
    if (use.watchdog !== undefined)
      atMost('stuck', stuck!, (b) => mean(1)(b) * use.watchdog!, stuck!, { charge: fixed(1) })
    if (bursts) atLeast('bursts per charge', bursts.lower, (b) => board.bursts(b, lowest), bursts.lower || 1)

    // Errors of the power.
    const reads = new WholeBoard(used, constants.assumed)
    const hall = Object.fromEntries(Object.entries(reads.hallBox()).map(([key, limits]) => [`hall ${key}`, limits]))
    const all = Object.fromEntries(Object.entries(used.divider.box).map(([key, limits]) => [`divider ${key}`, limits]))
    const error = (shown: (b: B, current: number, load: number, rail: number) => number) => (b: B) => {
      const { current, load, sag } = reads.solve(b, used.divider.plain.middle)
      return shown(b, current, load, sag) / (current ** 2 * load) - 1
    }
    const measured = { ...hall, ...all, ...inUse }
    const square = error((b, current, load) => reads.amperes(b, current) ** 2 * reads.resistance(b, load))
    const { squareTimesResistance: squared, voltageTimesCurrent: product, referenceEnters } = power.error
    if (squared) {
      atMost('current squared times resistance', squared.upper, square, 1, measured)
      atLeast('current squared times resistance, least', squared.lower, square, 1, measured)
    }
    if (product && watch && referenceEnters === 1) {
      const { load: R_L, way } = constants
      const shared = R_L / (R_L + way)
      const times = error((b, current, _, rail) => {
        const own = plain.lives.converter > 0 ? board.at(b).rails.sag[plain.lives.converter]! : rail
        return board.read(b, rail, own) * reads.amperes(b, current) * shared
      })
      atMost('voltage times current', product.upper, times, 1, measured)
      atLeast('voltage times current, least', product.lower, times, 1, measured)
    }

    // The same in pulses, sampled while the capacitors may still feed the load.
    const { wait, edge } = used.current.plain
    const read = (b: B) => {
      const { power, s, comesTo, first, time } = board.pulse(b, b.onShare, b.charge, b.begun)
      const above = first * Math.exp(-Math.max(0, wait - edge) / time)
      const left = s.rest > s.sag ? (above * s.sag) / (s.rest - s.sag) : 0
      return { power, s, rail: s.sag * (1 + above), left, amperes: reads.amperes(b, comesTo, { first, time, left }) }
    }
    const squareOf = (b: B) => {
      const { power, s, amperes } = read(b)
      return (amperes ** 2 * reads.resistance(b, s.load)) / power - 1
    }
    const productOf = (b: B) => {
      const { load: R_L, way } = constants
      const { power, s, rail, left, amperes } = read(b)
      const on = plain.lives.converter
      const own = on > 0 ? (1 - left) * s.rails.sag[on]! + left * s.rails.rest[on]! : rail
      return (board.read(b, rail, own) * amperes * R_L) / (R_L + way) / power - 1
    }
    if (squared && isCell) {
      atMost('current squared times resistance, in a pulse', squared.upper, squareOf, 1, measured)
      atLeast('current squared times resistance, in a pulse, least', squared.lower, squareOf, 1, measured)
    }
    if (product && watch && referenceEnters === 1 && isCell) {
      atMost('voltage times current, in a pulse', product.upper, productOf, 1, measured)
      atLeast('voltage times current, in a pulse, least', product.lower, productOf, 1, measured)
    }
    const { setPoint } = power.limit!
    const isModelled = product === null || (watch !== undefined && referenceEnters === 1)
    if (squared && setPoint !== null && isCell && isModelled) {
      // The power that is shown where the real one is at its limit: the firmware must not go on below that.
      const shown = (b: B) => {
        const real = (duty: number) => duty * board.pulse(b, duty).power
        let [within, over] = [0.2, use.duty]
        if (real(within) > use.powerLimit || real(over) < use.powerLimit) return Number.POSITIVE_INFINITY
        for (let halving = 0; halving < 30; halving++) {
          const middle = (within + over) / 2
          if (real(middle) < use.powerLimit) within = middle
          else over = middle
        }
        const there = { ...b, onShare: over, begun: 0 }
        return use.powerLimit * (1 + Math.max(squareOf(there), product ? productOf(there) : -1))
      }
      atLeast('power that may be shown', setPoint, shown, use.powerLimit, measured)
    }

    // Monitor and drawer.
    if (monitor && watch) {
      const stop = watch.alarms.find(([one]) => one === 'stop')![1]
      const reset = (b: B) => {
        const { s } = board.stop(b)
        return s.rails.sag[plain.lives.controller]! - plain.brownOut
      }
      atLeast('rail at the stop above the reset', monitor.aboveReset, reset, stop)
      const cells = plain.source.kind === 'cell' ? plain.source.inSeries : 1
      atLeast(
        'cells at the stop above damage',
        monitor.aboveDamage!,
        (b) => board.stop(b).s.open + b['drop'] - cells * use.damage,
        stop,
      )
      atLeast('charge before the stop', monitor.beforeStop!, (b) => 1 - board.stop(b).charge, 1)
      if (monitor.hysteresis !== null && watch.hysteresis !== undefined) {
        const spare = (b: B) => {
          const { s, charge } = board.stop(b)
          if (charge === 0 || charge === 1) return Number.POSITIVE_INFINITY
          const own = s.rails.rest[plain.lives.converter]!
          // What is shown of the rail that has come back, as volts of the rail itself.
          const missing = stop + watch.hysteresis! - (board.read(b, s.rest, own) + b.nextNoise)
          return missing * (s.rest / board.read(b, s.rest, own))
        }
        atLeast('hysteresis', monitor.hysteresis, spare, stop)
      }
      monitor.alarms.forEach(({ toNext, acts }, k) => {
        const [id, threshold] = watch.alarms[k]!
        const isAtRest = id === 'latch'
        const rail = (b: B) => board.acts(b, threshold, { underLoad: watch.underLoad && !isAtRest, noise: 0 })
        const main = (b: B, otherwise: number) => {
          const { charge, main, leaps } = rail(b)
          return charge === 0 || charge === 1 || leaps ? otherwise : main
        }
        atMost('acts at', acts.upper, (b) => main(b, acts.upper), stop)
        atLeast('acts at, least', acts.lower, (b) => main(b, acts.lower), stop)
        const next = watch.alarms[k + 1]
        if (toNext === null || next === undefined || (watch.underLoad && next[0] === 'latch')) return
        const apart = (b: B) => {
          const one = board.acts(b, threshold, { noise: b.stopNoise })
          const other = board.acts(b, next[1], { noise: b.nextNoise })
          if ([one, other].some(({ charge, leaps }) => charge === 0 || charge === 1 || leaps))
            return Number.POSITIVE_INFINITY
          return one.main - other.main
        }
        atLeast('to the next', toNext, apart, stop)
      })
    }
    if (standby) {
      const scale = standby.daysToCutOff.lower || 1
      atLeast('days to the cut-off', standby.daysToCutOff.lower, (b) => board.days(b, 1, board.end(b)), scale)
      const after = (b: B) => {
        const from = watch ? board.stop(b).charge : 0
        return board.days(b, from, Math.min(from, board.chargeAt(b, use.damage)))
      }
      atLeast('days to damage', standby.daysToDamage.lower, after, standby.daysToDamage.lower || scale)
    }
  }
  expect(answered).toBeGreaterThan(many / 2)
  expect(tally.tooGood(0.002), 'no claim is better than the worst board').toEqual([])
})
