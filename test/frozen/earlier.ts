/*
 * Choices that were frozen when a rail had a cell and a path of its own, as they are written today: the path as one list
 * whose resistances nothing warms, a cell whose charge doesn't count, a weak port as plain numbers. And a measurement's,
 * frozen when an offset moved from a common mode of 0 on, and what was not settled yet was no error of the reading. And a switch's, frozen when a saturated transistor let go at once.
 */

type Fields = Readonly<Record<string, unknown>>

const isFields = (value: unknown): value is Fields => typeof value === 'object' && value !== null

/** Words of the path's elements, in the order of their symbols. */
const words = ['contacts', 'protection', 'switchResistance', 'sensor', 'connector', 'wiring'] as const

/** What symbols are called today. */
const symbols: Readonly<Record<string, string>> = {
  R_cont: 'R_1',
  R_prot: 'R_2',
  R_sw: 'R_3',
  R_sens: 'R_4',
  R_conn: 'R_5',
  R_wire: 'R_6',
  V_pol: 'V_drop',
  R_cable: 'R_s',
  s_worn: 'x_age',
  k_aged: 'k_age',
  k_age: 'k_life',
}

/** A rail's choice in the words of today. */
export function choiceOfToday(choice: unknown): unknown {
  if (!isFields(choice) || !isFields(choice['source'])) return choice
  const { source, insertion, ...rest } = choice
  if ('source' in source || ('resistance' in source && !('kind' in source))) return choice
  if (source['kind'] === 'limited supply') {
    const { kind: _, ...plain } = source
    return { ...choice, source: plain }
  }
  const { tripVoltage, ...left } = isFields(insertion) ? insertion : {}
  const { cellResistance, ageFactor = 1.5, temperature, polarityDrop, inductance = 0 } = source
  const path = words.map((word) => ({
    name: word,
    resistance: source[word] ?? 0,
    temperatureCoefficient: 'none',
    ...(word === 'protection' && tripVoltage !== undefined && { tripVoltage }),
  }))
  const cell = {
    kind: 'cell',
    openCircuit: 'NMC 21700',
    capacity: '4 Ah',
    continuousCurrent: 30,
    resistance: cellResistance,
    chargeFactor: '0: 1, 1: 1',
    ageFactor,
    ...(temperature !== undefined && { temperatureFactor: temperature }),
  }
  const drop = polarityDrop === undefined ? [] : [{ name: 'polarity', drop: polarityDrop }]
  return {
    ...rest,
    ...(insertion !== undefined && { insertion: left }),
    source: { source: cell, path: [...path, ...drop], inductance },
  }
}

/** Shortest wait of the frozen measurements that leaves nothing unsettled, and one that does so in any of them, s. */
const settles = { from: 1e-4, instead: 0.9 } as const

/** A measurement's choice that answers today as it did: the common mode of the offset said, the wait long enough. */
export function measurementOfToday(choice: unknown): unknown {
  if (!isFields(choice) || !isFields(choice['amplifier'])) return choice
  const { amplifier, timing } = choice
  const isShort = isFields(timing) && Number(timing['wait']) < settles.from
  return {
    ...choice,
    amplifier: { ...amplifier, offsetCommonMode: 0 },
    ...(isShort && { timing: { ...timing, wait: settles.instead } }),
  }
}

/** A switch's choice that answers today as it did: its transistor kept out of saturation, which stores nothing. */
export function switchOfToday(choice: unknown): unknown {
  if (!isFields(choice) || !isFields(choice['drive'])) return choice
  const { drive } = choice
  return drive['kind'] === 'inverting transistor' ? { ...choice, drive: { storageTime: 0, ...drive } } : choice
}

/** Numbers by the symbols of today; an element that isn't there has none. */
export const numbersOfToday = (numbers: Readonly<Record<string, number>>): Record<string, number> =>
  Object.fromEntries(
    Object.entries(numbers).flatMap(([was, value]) => {
      const symbol = symbols[was] ?? was
      return value === 0 && absent.test(symbol) ? [] : [[symbol, value]]
    }),
  )

const absent = /^(R_[1-6]|V_drop)$/
