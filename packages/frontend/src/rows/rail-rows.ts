import type { BlockRow } from '@ohmward/budget'
import { dividerRatio, sourceResistance } from '@ohmward/hall/formulas'
import { between, exact, readSpread, type Spread } from '@ohmward/quantity'
import { pinAt, type ReadRail, regulate } from '@ohmward/supply'
import { mainRail, type Part, railOf } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import type { Ends } from '../supply/place.js'
import { drawOf, type LoadedRails, type RailState, railsOver } from '../supply/rails.js'
import type { SolvedSpan } from '../supply/solve.js'
import type { ReadyRow } from './ready-row.js'
import { senseRows } from './sense-rows.js'

type Text = Pick<BlockRow, 'id' | 'name' | 'unit' | 'sense' | 'catches'>

const plain = (text: Text, worst: number, limit: number, nominal: number): ReadyRow => ({
  id: `rails/${text.id}`,
  row: { kind: 'plain', ...text, worst, limit, nominal },
})

/** What is watched of the rails behind the main one: the controller's supply, the pins between rails, regulators. */
export function railRows(design: ReadDesign, solved: SolvedSpan): ReadyRow[] {
  const rows = [controllerRows, pinRows, sensorRows, senseRows, regulatorRows]
  return rows.flatMap((of) => of(design, solved))
}

/** The sensor's supply with the load off, where its rail stands highest: its own block has it while a current is read. */
function sensorRows(design: ReadDesign, { rails }: SolvedSpan): ReadyRow[] {
  const { sensorSupply } = design.hall
  if (sensorSupply !== undefined && sensorSupply !== 'rail') return []
  const { rest } = rails[railOf(design, sensorSupply === undefined ? 'sensor' : 'converter')]!
  const { lower: limit } = design.parts.sensor.supplyMaximum
  const text = {
    id: 'sensor-highest',
    name: 'highest sensor supply, load off',
    unit: 'V',
    sense: 'at most',
  } as const
  return [plain({ ...text, catches: ['E01'] }, rest.upper, limit, rest.nominal)]
}

/** The controller behind a rail of its own, while the load is on. Pitfalls J05, J07, J08. */
function controllerRows(design: ReadDesign, { rails }: SolvedSpan): ReadyRow[] {
  const name = railOf(design, 'controller')
  if (name === mainRail) return []
  const { sag } = rails[name]!
  const { brownOut, lowestSupply } = design.controller
  const text = (id: string, what: string, catches: readonly string[]): Text => ({
    id,
    name: `lowest ${name} rail against the ${what}`,
    unit: 'V',
    sense: 'at least',
    catches,
  })
  return [
    plain(text('brown-out', 'brown-out threshold', ['J05', 'J07', 'J08']), sag.lower, brownOut.upper, sag.nominal),
    plain(text('clock', 'minimum supply for the clock', ['J08']), sag.lower, lowestSupply, sag.nominal),
    plain(
      text('clock-reset', 'minimum supply for the clock, at the lowest brown-out', ['J08']),
      brownOut.lower,
      lowestSupply,
      brownOut.nominal,
    ),
  ]
}

/** Pins of the converter that are driven from another rail, that of the sensor through its divider. Pitfall J06. */
function pinRows(design: ReadDesign, { rails, span }: SolvedSpan): ReadyRow[] {
  const { lives } = design
  const driven: [Part, string, Way, Way][] = [
    ['sensor', 'pin of the current sensor', wayOfSensor(design, 'worst'), wayOfSensor(design, 'nominal')],
    ['amplifier', 'pin of the amplifier', wayOf(lives.pinSeries.lower), wayOf(lives.pinSeries.nominal)],
  ]
  const own = railOf(design, 'converter')
  const apart = driven.filter(([part]) => railOf(design, part) !== own)
  if (apart.length === 0) return []
  const at = together(design, rails, span.celsius)
  return apart.map(([part, name, worstWay, usual]) => {
    const into = (all: LoadedRails, state: keyof Main, { share, series }: Way) => {
      const { lower, nominal, upper } = all[railOf(design, part)]![state]
      const open = lower === upper ? exact(share * upper) : between(share * lower, share * upper, share * nominal)
      return pinAt(open, all[own]![state], exact(Math.max(series, 1e-3)), exact(lives.pinClamp)).current
    }
    const text = {
      id: `pin-${part}`,
      name: `current into the clamp of the ${name}`,
      unit: 'A',
      sense: 'at most',
      catches: ['J06'],
    } as const
    const worst = Math.max(...at.map(({ all, state }) => into(all, state, worstWay).upper))
    const nominal = Math.max(into(rails, 'rest', usual).nominal, into(rails, 'sag', usual).nominal)
    return plain(text, worst, lives.pinCurrent, Math.min(nominal, worst))
  })
}

/** What lies between an output at its rail and a pin: the share of it that the open pin has, and the resistance behind that, ohm. */
interface Way {
  readonly share: number
  readonly series: number
}

const wayOf = (series: number): Way => ({ share: 1, series })

/** From the sensor's output, through its divider where there is one and the filter; the output itself is taken to have no resistance. */
function wayOfSensor({ hall: { divider, filter } }: ReadDesign, end: 'worst' | 'nominal'): Way {
  const read = (given: Parameters<typeof readSpread>[0], name: string) =>
    readSpread(given, { field: `hall.${name}`, unit: 'ohm', min: 0, max: 1e7 })
  const [least, most] = end === 'worst' ? (['lower', 'upper'] as const) : (['nominal', 'nominal'] as const)
  if (divider === undefined) return wayOf(read(filter?.resistance ?? 1, 'filter.resistance')[least])
  const R_filt = filter?.resistance === undefined ? 0 : read(filter.resistance, 'filter.resistance')[least]
  // Less above and more below: a higher pin with less behind it, whatever the filter.
  const [R_t, R_b] = [read(divider.top, 'divider.top')[least], read(divider.bottom, 'divider.bottom')[most]]
  const share = dividerRatio({ R_b, R_o: 0, R_t })
  return { share, series: sourceResistance({ R_o: 0, R_t, R_b, R_filt }) }
}

type Main = Pick<RailState, 'rest' | 'sag'>

/** How finely a range of the main rail is cut. */
const pieces = 16

/**
 * The rails with the main one in each piece of its range, at rest and in its sag: they move together, so that one behind a
 * diode is never as far below the main rail as empty cells are below full ones.
 */
function together(design: ReadDesign, rails: LoadedRails, celsius: Ends) {
  const { rest, sag } = rails[mainRail]!
  const over = (main: Main, state: keyof Main) => ({ state, all: railsOver(design, main, celsius) })
  return [
    ...cut(rest).map((piece) => over({ rest: piece, sag: piece }, 'rest')),
    ...cut(sag).map((piece) => over({ rest, sag: piece }, 'sag')),
  ]
}

function cut({ lower, upper }: Spread): Spread[] {
  if (lower === upper) return [exact(lower)]
  const step = (upper - lower) / pieces
  return Array.from({ length: pieces }, (_, i) => between(lower + i * step, lower + (i + 1) * step))
}

/** Current, input and junction of every regulator. */
function regulatorRows(design: ReadDesign, { rails, span, test }: SolvedSpan): ReadyRow[] {
  return (design.rails ?? []).flatMap(({ name, source, through }: ReadRail) => {
    if (through.kind !== 'regulator') return []
    const [current, most] = [drawOf(design, name), drawOf(design, name, test)]
    const raw = rails[source]!.rest
    const text = (id: string, what: string, unit: string): Text => ({
      id: `${id}-${name}`,
      name: `${what} of the regulator of ${name}`,
      unit,
      sense: 'at most',
      catches: [],
    })
    const rows = [plain(text('regulator-current', 'current', 'A'), most.upper, through.currentLimit, most.nominal)]
    if (through.highestInput !== undefined)
      rows.push(plain(text('regulator-input', 'input', 'V'), raw.upper, through.highestInput, raw.nominal))
    const at = regulate(through, raw, current)
    if (at.kind === 'impossible') return rows
    const ambient = span.celsius.to
    const { rise } = at
    rows.push(
      plain(
        text('regulator-junction', 'junction', 'degC'),
        ambient + rise.upper,
        through.highestJunction,
        ambient + rise.nominal,
      ),
    )
    return rows
  })
}
