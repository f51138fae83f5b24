import { format, preferredAtMost, readPart } from '@ohmward/quantity'
import { type Board, boardAt, emissionAt } from '../chain/board.js'
import type { ReadDecoupling } from '../choice/choice.js'
import type { InputSet } from '../choice/inputs.js'
import { diodeDrop } from '../formulas/index.js'
import { logicFields } from '../parts/index.js'
import { limitWords, railLimits } from '../rail/limits.js'
import { restOf, steadyRail } from '../rail/steady.js'
import type { Sized } from './remedy.js'
import { edge, type Failing, railSlack, worstValues } from './trial.js'

/** Current and drop at 25 °C of a logic rail where none is stated, and how long it is to hold: invented figures of usual size. */
const usual = { current: 5e-3, forwardVoltage: 0.35, burst: 10e-3 }

/** Most that is looked at, F. Under PWM what falls by 10 uV in a period: more changes nothing but the digits. */
const mostOf = ({ load: { pwm } }: ReadDecoupling, peak: number): number =>
  pwm ? Math.min(100, peak / (pwm.frequency.from * 1e-5)) : 100

/** A logic rail of its own that carries every limit: behind a diode, behind a resistor. */
export function isolationRows(read: ReadDecoupling, inputs: InputSet, cases: readonly Failing[]): Sized[] {
  const boards = cases.filter(({ kind }) => kind === 'rail').map(({ trial }) => trial.board)
  const isEndless = read.load.duration === Number.POSITIVE_INFINITY && !read.load.pwm
  const current = Math.max(...boards.map(({ logic }) => logic.current)) || usual.current
  const peak = Math.max(current, ...boards.map(({ logic }) => logic.peak))
  const volts = railLimits(read)[0]!.volts
  const rest = Math.min(...boards.map((board) => restOf(withLogic(board, { current }))))
  const moved = read.logicRail ? railLimits(read).filter(({ place }) => place === 'rail') : []
  const carries =
    moved.length > 0
      ? ` What now hangs on the rail must move there: ${moved.map(({ name }) => limitWords[name]).join(', ')}.`
      : ''
  const endless = isEndless ? ` Sized for each ${format(usual.burst, 's')} of load: it holds no step that stays.` : ''
  const tail = carries + endless
  // The field wants the drop at 25 °C; the worst board has that of its own temperature.
  const stated = read.logicRail?.behind === 'diode' ? read.logicRail.fields.forwardVoltage.upper : usual.forwardVoltage
  const make = (behind: 'diode' | 'resistor', capacitance = 1): ReadDecoupling => ({
    ...read,
    load: isEndless ? { ...read.load, duration: Math.max(usual.burst, read.load.rise) } : read.load,
    logicRail: { behind, fields: readPart({ capacitance, current, forwardVoltage: stated }, logicFields, 'logicRail') },
    onLogicRail: railLimits(read).map(({ name }) => name),
  })
  const size = (behind: 'diode' | 'resistor', change: (board: Board) => Partial<Board['logic']> & { V_f?: number }) => {
    const changed = make(behind)
    const limits = railLimits(changed)
    const slackOn = (board: Board, capacitance: number): number =>
      railSlack(
        { read: changed, board: withLogic(board, { current, peak, capacitance, ...change(board) }) },
        limits,
        true,
      )
    const all = [...boards]
    // The board with the lowest rail need not have the lowest logic rail: that one is looked for until none is worse.
    for (let round = 0; round < 4; round++) {
      const value = edge((C) => Math.min(...all.map((board) => slackOn(board, C))), 1e-12, mostOf(read, peak))
      if (value === null) return null
      const board = boardAt(
        read,
        inputs,
        worstValues(make(behind, value), ({ V_logic }) => V_logic),
      )
      if (slackOn(board, value) >= -1e-12 || round === 3) return value
      all.push(board)
    }
    return null
  }

  const drop = (board: Board) =>
    read.logicRail?.behind === 'diode'
      ? board.forwardVoltage
      : diodeDrop({ V_f: stated, k_f: logicFields.forwardDrift.otherwise, T_a: board.ambientCelsius, T_f: 25 })
  const V_f = Math.max(...boards.map(drop))
  const held = size('diode', (board) => ({ V_f: drop(board) }))
  const costs = `Breaks ratiometry between logic and raw rail, and pins from the raw rail stand above the logic rail by the diode's drop.${tail}`
  const diode: Sized = {
    id: 'diode',
    name: 'hold-up capacitor behind a diode',
    value: held,
    unit: 'F',
    sense: 'at least',
    present: read.logicRail?.behind === 'diode' ? Math.min(...boards.map(({ logic }) => logic.capacitance)) : null,
    text:
      held === null
        ? `The diode's ${format(V_f, 'V')} takes more than the worst source has above the limit.`
        : `At ${format(peak, 'A')} and a diode of ${format(stated, 'V')} at 25 °C. ${costs}`,
  }

  // A filter ends at the mean of the rail under PWM; a burst is to be over before it ends anywhere.
  const mean = Math.min(...boards.map((board) => steadyRail(withLogic(board, { current }))))
  const room = (read.load.pwm ? mean : rest) - volts
  const resistance = room > 0 ? preferredAtMost(room / 3 / peak, 'E24') : 0
  const filtered = room > 0 ? size('resistor', () => ({ resistance })) : null
  const resistor: Sized = {
    id: 'resistor',
    name: 'capacitor behind a resistor',
    value: filtered,
    unit: 'F',
    sense: 'at least',
    present: read.logicRail?.behind === 'resistor' ? Math.min(...boards.map(({ logic }) => logic.capacitance)) : null,
    text:
      filtered === null
        ? `No capacitor is enough${read.load.pwm && room <= 0 ? ': a filter ends at the mean of the rail' : ''}.`
        : `With ${format(resistance, 'ohm', { digits: 2 })} at ${format(peak, 'A')}; a larger peak of current drops more across it.${tail}`,
  }
  return [diode, resistor]
}

function withLogic(board: Board, { V_f, ...logic }: Partial<Board['logic']> & { readonly V_f?: number }): Board {
  const all = { ...board.logic, ...logic }
  return {
    ...board,
    logic: all,
    idle: Math.max(board.idle, all.current),
    forwardVoltage: V_f ?? board.forwardVoltage,
    // A board without a diode has none of its law.
    emission: board.emission || emissionAt(logicFields.emission.otherwise, board.ambientCelsius),
    slope: board.emission > 0 ? board.slope : logicFields.slopeResistance.otherwise,
  }
}
