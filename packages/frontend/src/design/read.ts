import { decoupling, decouplingRecord } from '@ohmward/decoupling'
import { divider, dividerRecord } from '@ohmward/divider'
import { hall, hallRecord } from '@ohmward/hall'
import { mosfet, choiceRecord as mosfetRecord } from '@ohmward/mosfet'
import {
  exact,
  format,
  InputError,
  type InputProblem,
  readRecord,
  type Schema,
  schemaOf,
  settled,
} from '@ohmward/quantity'
import { decouplingAt } from '../blocks/decoupling-at.js'
import { dividerAt } from '../blocks/divider-at.js'
import { hallAt } from '../blocks/hall-at.js'
import { mosfetAt } from '../blocks/mosfet-at.js'
import { noRing } from '../pulse/rung.js'
import { powerAt } from '../supply/power.js'
import { type SolvedSpan, solveAt } from '../supply/solve.js'
import { mostCapacitance } from './capacitance.js'
import {
  refuseAir,
  refuseBoard,
  refuseBursts,
  refuseCoefficient,
  refuseDiode,
  refuseDrive,
  refuseHighLevel,
  refuseMonitor,
  refuseTopology,
  refuseTwice,
} from './contradictions.js'
import { readExcitation } from './excitation.js'
import { jsonFault } from './json-fault.js'
import { usedSupply } from './late.js'
import { loadOf } from './load.js'
import { orderedRails, railOf } from './rails.js'
import { type Design, designRecord, givenByDesign, type ReadDesign } from './record.js'
import { readSensor, readSensorLag } from './sensor.js'
import { warmed } from './warm-path.js'

/**
 * Reads a design, the blocks' choices through the blocks.
 *
 * @throws InputError naming the first field that isn't allowed, with the nearest name of an unknown one; a version that is
 *   later than this release
 */
export function readDesign(given: Design): ReadDesign {
  refuseLater(given)
  const fields = readRecord(designRecord, given, 'design')
  refuseBoard(fields)
  refuseDiode(fields)
  orderedRails(fields)
  refuseTwice(fields)
  refuseCoefficient(fields)
  refuseAir(fields)
  const { mosfet: own, pwm, ambientCelsius, hall } = fields
  const read = () => mosfet.read({ ...own, load: { resistance: 1 }, pwm }, full(ambientCelsius.from))
  const load = loadOf(fields.load)
  const parts = {
    switch: named('mosfet', read),
    sensor: readSensor(hall.sensor),
    sensorLag: readSensorLag(fields),
    excitation: named('divider', () => readExcitation(fields)),
    supply: warmed(fields, load),
    ...mostCapacitance(fields.decoupling, ambientCelsius),
    emptyCharge: 0,
    unanswered: unansweredOf(given),
  }
  const whole = { ...fields, load, parts }
  refuseMonitor(whole)
  refuseBursts(whole)
  refuseDrive(whole)
  const { supply, emptyCharge } = usedSupply(whole)
  const design = { ...whole, parts: { ...parts, supply: settled(supply), emptyCharge } }
  refuseParts(design)
  refuseTopology(design)
  return design
}

/** The regulators whose answer to a step of their current is left to what is usual, by the names of their rails. */
const unansweredOf = ({ rails = [] }: Design): string[] =>
  rails.flatMap(({ name, through }) =>
    typeof through === 'object' &&
    through.kind === 'regulator' &&
    (through.responseTime === undefined || through.outputCapacitance === undefined)
      ? [name]
      : [],
  )

/** A power that no duty brings to the load. Pitfall K02. */
function refusePower({ requirements }: ReadDesign, solved: SolvedSpan): void {
  const { power: value } = requirements
  const most = powerAt(solved).upper
  if (value === undefined || value <= most) return
  const allowed = `at most ${format(most, 'W', { digits: 3, towards: 'down' })}: the supply delivers no more to the load`
  throw new InputError({ field: 'requirements.power', value, unit: 'W', allowed })
}

/** The version first: a later one has fields that aren't known yet. */
function refuseLater(given: unknown): void {
  if (typeof given !== 'object' || given === null || !('version' in given)) return
  designRecord.fields.version.read(given.version, 'version')
}

/** Reads every block's choice once, on full supply, so that a slip is named before anything is walked. */
function refuseParts(design: ReadDesign): void {
  const { from: celsius } = design.ambientCelsius
  const solved = solveAt(design, { charge: 1, celsius, age: design.age.from })
  refusePower(design, solved)
  refuseHighLevel(design, solved.rails)
  const { rest, measuring, sag } = solved.rails[railOf(design, 'converter')]!
  const excitation = solved.rails[design.parts.excitation.rail]!.measuring.nominal
  const sensor = solved.rails[railOf(design, 'sensor')]!
  const firmware = {
    measuring: measuring.nominal,
    rail: sag.nominal,
    excitation,
    rests: exact(rest.nominal),
    sensor: sensor.sag.nominal,
    sensorRests: exact(sensor.rest.nominal),
    tasks: [],
    edges: () => undefined,
    sampledAfter: () => 0,
    zeroAfter: () => 3600,
    ring: () => noRing,
  }
  for (const { name, choice, conditions, read } of [
    { name: 'divider', read: divider.read, ...dividerAt(design, solved, firmware) },
    { name: 'hall', read: hall.read, ...hallAt(design, solved, firmware) },
    { name: 'mosfet', read: mosfet.read, ...mosfetAt(design, solved) },
    { name: 'decoupling', read: decoupling.read, ...decouplingAt(design, solved) },
  ]) {
    try {
      named(name, () => (read as (choice: unknown, conditions: unknown) => unknown)(choice, conditions))
    } catch (error) {
      // A limit that the supply misses is a row, no slip.
      if (!(error instanceof InputError && error.field.startsWith(`${name}.limits.`))) throw error
    }
  }
}

const full = (celsius: number) => ({
  openCircuit: { from: 1, to: 1 },
  sourceResistance: 0,
  ambientCelsius: { from: celsius, to: celsius },
})

/** Runs a block's reader and puts the block's name before the field. */
function named<T>(block: string, read: () => T): T {
  try {
    return read()
  } catch (error) {
    if (!(error instanceof InputError)) throw error
    const inDesign = ({ field, value, unit = '', allowed, hint = '', also = [] }: InputProblem): InputProblem => {
      const isShared = field.startsWith('pwm') || (field.startsWith('load') && block !== 'divider')
      const path = field === 'choice' ? block : isShared ? field : `${block}.${field}`
      return { field: path, value, unit, allowed, hint, also: also.map(inDesign) }
    }
    throw new InputError(inDesign(error))
  }
}

/**
 * A design out of its file.
 *
 * @throws InputError with line and column where the text is no JSON
 */
export function parseDesign(text: string): Design {
  try {
    return JSON.parse(text) as Design
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error
    const { line, column, expected } = jsonFault(text) ?? { line: 1, column: 1, expected: 'JSON' }
    const value = text.split('\n')[line - 1]!.slice(column - 1, column + 19)
    const field = `line ${line}, column ${column}`
    throw new InputError({ field, value, allowed: expected, hint: 'The file is not JSON' })
  }
}

/** A design as it stands in its file: JSON, indented by two spaces. What is read and written again is the same text. */
export const writeDesign = (design: Design): string => `${JSON.stringify(design, null, 2)}\n`

/** JSON schema of a design (draft 2020-12), the blocks' parts in it, so that an editor completes and checks its file. */
export function designSchema(): Schema {
  const own = schemaOf(designRecord, { title: 'Ohmward design' })
  const title = ''
  const parts = {
    divider: schemaOf(dividerRecord, { title }),
    hall: schemaOf(hallRecord, { title }),
    mosfet: schemaOf(mosfetRecord, { title }),
    decoupling: schemaOf(decouplingRecord, { title }),
  }
  const properties: Record<string, unknown> = { ...Object(own['properties']) }
  for (const [block, { $schema: _, title: __, ...schema }] of Object.entries(parts)) {
    const given: readonly string[] = block in givenByDesign ? givenByDesign[block as keyof typeof givenByDesign] : []
    properties[block] = { ...Object(properties[block]), ...without(schema, given) }
  }
  return { ...own, properties }
}

/** A schema without some of its fields. */
function without(schema: Schema, fields: readonly string[]): Schema {
  const kept = Object.entries(Object(schema['properties'])).filter(([name]) => !fields.includes(name))
  const required = (schema['required'] as readonly string[]).filter((name) => !fields.includes(name))
  return { ...schema, properties: Object.fromEntries(kept), required }
}
