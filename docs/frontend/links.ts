import {
  type Design,
  type DesignAssessment,
  decouplingAt,
  dividerAt,
  hallAt,
  mosfetAt,
  type Place,
  readDesign,
  solveAt,
  walkOf,
} from '@ohmward/frontend'
import { type Form, fieldsOf } from '../.vitepress/theme/block.ts'
import { standing, textsFor } from '../.vitepress/theme/form/texts.ts'
import { toQuery } from '../.vitepress/theme/link.ts'
import { form as decoupling } from '../decoupling/form.ts'
import { form as divider } from '../divider/form.ts'
import { form as hall } from '../hall/form.ts'
import { form as mosfet } from '../mosfet/form.ts'

/** A part of the design on the page of its block: with what the supply leaves it where its tightest row is tightest, down to the charge that must be usable. */
export interface PartLink {
  readonly block: string
  readonly title: string
  readonly query: string
  readonly place: Place
}

const parts = [
  { form: divider, title: 'resistance' },
  { form: hall, title: 'current' },
  { form: mosfet, title: 'switch' },
  { form: decoupling, title: 'rail' },
] as const

/** Every block's page with its part of a design. */
export function partLinks(given: Design, { rows }: Pick<DesignAssessment, 'rows'>): PartLink[] {
  const design = readDesign(given)
  const { firmware } = walkOf(design, { charges: 2 })
  const least = Number((1 - design.requirements.usableCharge).toFixed(9))
  return parts.flatMap(({ form, title }) => {
    const tightest = rows.find(({ block, place }) => block === form.id && place !== null)
    if (!tightest?.place) return []
    const { state } = tightest
    const place = { ...tightest.place, charge: Math.max(tightest.place.charge, least) }
    const solved = solveAt(design, place)
    const part = partOf(form.id, given, {
      divider: () => dividerAt(design, solved, firmware),
      hall: () => hallAt(design, solved, firmware),
      mosfet: () => mosfetAt(design, solved),
      decoupling: () => decouplingAt(design, solved, state === 'PWM' ? state : undefined, firmware.edges()),
    })
    return [{ block: form.id, title, query: queryOf(form, part), place }]
  })
}

interface Part {
  readonly choice: object
  readonly conditions: object
  readonly at: Readonly<Record<string, number>>
}

/** What a block is given, with what the design's user wrote as it was written. */
function partOf(block: string, given: Design, at: Readonly<Record<string, () => Part>>): Part {
  const part = at[block]!()
  const { pwm } = given
  if (block === 'hall' || block === 'mosfet') return { ...part, choice: { ...part.choice, pwm } }
  if (block !== 'decoupling') return part
  const { limits, load, capacitors, ...choice } = part.choice as Record<string, any>
  const { brownOut, lowestSupply: clock } = given.controller
  const written = {
    ...(limits.brownOut && { brownOut, clock }),
    ...(limits.sensor && { sensor: given.hall.sensor.supplyMinimum }),
    ...(limits.converter && { converter: limits.converter }),
  }
  const all: readonly object[] = Array.isArray(capacitors) ? capacitors : Object.values(capacitors)
  const named = Object.fromEntries(all.map((one, i) => [['bulk', 'second', 'third'][i]!, { count: 1, ...one }]))
  return {
    ...part,
    choice: {
      ...choice,
      source: given.supply,
      capacitors: named,
      idle: given.rails === undefined ? given.controller.current : choice['idle'],
      limits: written,
      load: { ...load, rise: given.load?.rise, ...(load.pwm && { pwm: { ...load.pwm, frequency: pwm.frequency } }) },
    },
  }
}

/** The query of a block's page for a part. */
function queryOf(form: Form, { choice, conditions, at }: Part): string {
  const fixed = Object.fromEntries(Object.entries(at).map(([name, value]) => [name, { from: value, to: value }]))
  const fields = fieldsOf(form)
  const texts = textsFor(fields, { choice, conditions: outward({ ...conditions, ...fixed }) })
  return toQuery(form, Object.fromEntries(fields.map((field) => [field.id, standing(field, texts[field.id]!)])))
}

/** Ranges to six digits, outwards, and single numbers to six. */
const outward = (conditions: Readonly<Record<string, unknown>>): object =>
  Object.fromEntries(
    Object.entries(conditions).map(([name, value]) => {
      if (typeof value === 'number') return [name, Number(value.toPrecision(6))]
      if (typeof value !== 'object' || value === null || !('from' in value)) return [name, value]
      const { from, to } = value as { from: number; to: number }
      return [name, { from: rounded(from, Math.floor), to: rounded(to, Math.ceil) }]
    }),
  )

function rounded(value: number, way: (value: number) => number): number {
  if (value === 0) return 0
  const digit = 10 ** (Math.floor(Math.log10(Math.abs(value))) - 5)
  return Number((way(value / digit + (way === Math.floor ? 1e-7 : -1e-7)) * digit).toPrecision(7))
}
