import { InputError } from '@ohmward/quantity'

/** Words of the language that never belong into an answer. */
const leaked = /\bNaN\b|\bundefined\b|\[object |\bInfinity\b/

/**
 * What is wrong with an answer: a number that isn't finite, a word of the language in a text. `null` where nothing is.
 *
 * @param isEcho - whether such words were given, and may be repeated
 * @param mayBeInfinite - paths at which the documentation says that the answer may be infinite
 */
export function faultIn(value: unknown, mayBeInfinite?: RegExp, isEcho = false, path = '', depth = 0): string | null {
  if (typeof value === 'number') {
    if (Number.isNaN(value)) return `${path} is NaN`
    return Number.isFinite(value) || mayBeInfinite?.test(path) ? null : `${path} is ${value}`
  }
  if (typeof value === 'string') return !isEcho && leaked.test(value) ? `${path} says "${value.slice(0, 100)}"` : null
  if (typeof value !== 'object' || value === null || depth > 12) return null
  if (ArrayBuffer.isView(value))
    return faultIn([...(value as Float64Array).slice(0, 100)], mayBeInfinite, isEcho, path, depth + 1)
  for (const [key, one] of Object.entries(value)) {
    const fault = faultIn(one, mayBeInfinite, isEcho, `${path}.${key}`, depth + 1)
    if (fault !== null) return fault
  }
  return null
}

/** What is wrong with something that was thrown: only the one error of the library, naming a field, briefly. */
export function faultOf(thrown: unknown): string | null {
  if (!(thrown instanceof InputError)) {
    const { name = typeof thrown, message = '', stack = '' } = thrown as Partial<Error>
    return `threw ${name}: ${message.slice(0, 120)} ${/packages\/\S+/.exec(stack)?.[0] ?? ''}`
  }
  if (typeof thrown.field !== 'string' || thrown.field === '') return 'named no field'
  if (thrown.message.length > 1500) return `answered with ${thrown.message.length} characters`
  return /\[object |\bundefined is\b/.test(thrown.message) ? `said "${thrown.message.slice(0, 100)}"` : null
}

/** Calls, and says what is wrong with what came of it. */
export function faultOfCall(act: () => unknown, given: readonly unknown[], mayBeInfinite?: RegExp): string | null {
  let answer: unknown
  try {
    answer = act()
  } catch (thrown) {
    return faultOf(thrown)
  }
  return faultIn(answer, mayBeInfinite, echoes(given))
}

/** Whether the words of the language were given as a text: an answer may then repeat them. */
function echoes(value: unknown): boolean {
  if (typeof value === 'string') return leaked.test(value)
  return typeof value === 'object' && value !== null && Object.values(value).some(echoes)
}
