import type { Assessment, Choosing } from '@ohmward/budget'
import { exactly, format, type Given, InputError, joined, range, readRecord, record, word } from '@ohmward/quantity'
import type { DividerBudgets } from './block.js'
import { type DividerChoice, dividerConditions, dividerRecord } from './choice.js'
import { type Needed, neededFor } from './needed.js'
import { gainFields } from './parts.js'
import { look, type Search } from './search.js'

const search = {
  ambientCelsius: /*#__PURE__*/ range({
    unit: 'degC',
    min: -55,
    max: 125,
    otherwise: { from: 0, to: 50 },
    meaning: 'air around the board, inside the case',
  }),
  series: /*#__PURE__*/ word(['E3', 'E6', 'E12', 'E24', 'E48', 'E96', 'E192'], {
    otherwise: 'E24',
    meaning: 'series of preferred values (IEC 60063)',
  }),
  tolerance: /*#__PURE__*/ exactly({
    unit: '1',
    above: 0,
    max: 0.5,
    otherwise: '1 %',
    meaning: 'tolerance of every resistor',
  }),
  ground: /*#__PURE__*/ exactly({
    unit: 'ohm',
    min: 10,
    max: 1e6,
    otherwise: 1000,
    meaning: 'resistor from the inverting input to ground',
  }),
  most: /*#__PURE__*/ exactly({
    unit: '1',
    min: 1,
    max: 20,
    integer: true,
    otherwise: 3,
    meaning: 'how many choices to return',
  }),
} as const

const requirementRecord = /*#__PURE__*/ (() => {
  const { reference, gainResistors, ...others } = dividerRecord.fields
  const taken = { rail: dividerConditions.fields.rail, ratioDrift: gainFields.ratioDrift }
  return record(joined(joined(others, taken), search))
})()

/** What a measurement must do; the reference resistor and the gain pair are looked for. */
export interface DividerRequirement extends Given<typeof requirementRecord> {}

/** What came out of sizing. */
export interface DividerSizing extends Choosing<DividerChoice, Assessment<DividerBudgets>> {
  /** What would be needed where none of the candidates holds; absent otherwise. The nearest of them is `rejected[0]`. */
  readonly needed?: Needed
}

/** What a small switch carries: taken where no limit is given, or the smallest resistors would win with pulses of watts. */
const PIN = '100 mA'

/**
 * Finds the reference resistor and the gain pair among preferred values: the largest least slack first, one gain for each
 * reference resistor. Where no current limit of the excitation switch is given, 100 mA are taken. Every choice returned holds;
 * what was turned down is there with its reason, the nearest first. `beaten` counts what can't be better than what was chosen,
 * `untried` what wasn't looked at in full any more and might be; where nothing holds `needed` says what would do.
 *
 * @throws InputError naming the field that isn't allowed
 */
export function sizeDivider(requirement: DividerRequirement): DividerSizing {
  const search = readRequirement(requirement)
  const found = look(search)
  return found.choices.length > 0 ? found : { ...found, needed: neededFor(search, found) }
}

function readRequirement(requirement: DividerRequirement): Search {
  const { rail, ambientCelsius, series, tolerance, ground, most, topology, calibration } = readRecord(
    requirementRecord,
    requirement,
    'requirement',
  )
  if (topology === 'load at rail' && calibration.kind !== 'none') {
    throw new InputError({
      field: 'calibration',
      value: requirement.calibration,
      allowed: '"none" with the load at the rail',
      hint: 'With a short the output of a difference amplifier is at its lowest level: the zero cannot be read',
    })
  }
  return {
    base: baseOf(requirement),
    conditions: { rail, ambientCelsius },
    series,
    tolerance: format(tolerance, '1', { as: '%', digits: 15, ascii: true }),
    ground,
    ratioDrift: requirement.ratioDrift ?? gainFields.ratioDrift.otherwise,
    most,
  }
}

/** The choice as far as it is given. */
function baseOf(requirement: DividerRequirement): Search['base'] {
  const { rail, ambientCelsius, series, tolerance, ground, ratioDrift, most, ...base } = requirement
  return {
    ...base,
    excitationSwitch: { ...base.excitationSwitch, currentLimit: base.excitationSwitch?.currentLimit ?? PIN },
  }
}
