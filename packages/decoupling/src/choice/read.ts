import { InputError, type Read, readRecord } from '@ohmward/quantity'
import { capacitorRecord } from '../parts/index.js'
import { refuseBelowLimits, refuseProtection, refuseTogether, refuseTooSmall, refuseUncovered } from './checks.js'
import type { ReadCapacitor, ReadDecoupling } from './choice.js'
import { loadOf } from './load.js'
import { conditionsRecord, recordFor } from './record.js'
import { sourceOf } from './source.js'

/** What counts on a logic rail by default. */
export const usualOnLogicRail = ['brownOut', 'clock', 'converter'] as const

/** Reads a choice and its conditions. @throws InputError naming the first field that isn't allowed */
export function readDecoupling(choice: unknown, conditions: unknown): ReadDecoupling {
  const { ambientCelsius: ambient, ageYears: age, ...around } = readRecord(conditionsRecord, conditions, 'conditions')
  refuseCount(choice)
  const { source, tap, capacitors, logicRail, load, ...rest } = readRecord(recordFor(choice), choice, 'choice')
  const read: ReadDecoupling = {
    ...rest,
    ...sourceOf(source, tap, around),
    capacitors: Array.isArray(capacitors)
      ? capacitors.map((one, k) => capacitorOf(one, `capacitor ${k + 1}`))
      : Object.entries(capacitors).map(([key, one]) => capacitorOf(one, key)),
    load: loadOf(load),
    logicRail: logicRail && { behind: logicRail.behind, fields: logicRail },
    onLogicRail: rest.onLogicRail ?? usualOnLogicRail,
    ambient,
    age,
    oldest: age.to,
    given: { choice, conditions },
  }
  refuseUncovered(read)
  refuseBelowLimits(read)
  refuseTooSmall(read)
  refuseTogether(read)
  refuseProtection(read)
  return read
}

/** Refuses none or too many kinds of capacitor, listed or named. */
function refuseCount(choice: unknown): void {
  if (typeof choice !== 'object' || choice === null || !('capacitors' in choice)) return
  const { capacitors } = choice
  const names = typeof capacitors === 'object' && capacitors !== null ? Object.keys(capacitors) : []
  // A name that an object has of its own accord is none.
  if (names.length >= 1 && names.length <= 6 && !names.includes('__proto__')) {
    if (!Array.isArray(capacitors)) for (const key of names) capacitorRecord.name.read(key, 'capacitors')
    return
  }
  const allowed = 'one to six kinds, as a list or by their names'
  throw new InputError({ field: 'capacitors', value: capacitors, allowed })
}

function capacitorOf(fields: Read<typeof capacitorRecord>, key: string): ReadCapacitor {
  const { name = key, count, bias, temperature, cold } = fields
  return { name, count, fields, bias, temperature, cold }
}
