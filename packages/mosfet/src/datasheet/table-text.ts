import { InputError } from '@ohmward/quantity'

/**
 * A table of points as people write it, as the objects that it stands for: `25 °C: 1; 125 °C: 1.42` with the keys
 * `celsius` and `factor`. What isn't a text stays as it is.
 *
 * @param field - of what was given, for its error
 * @param keys - of what stands before and behind the colon
 * @param more - a word and the key of what follows it: `1.8 V: 32 mohm typ 22 mohm`
 * @throws InputError for a line without a colon
 */
export function tableOf(
  given: unknown,
  field: string,
  [first, second]: readonly [string, string],
  more?: readonly [word: string, key: string],
): unknown {
  if (typeof given !== 'string') return given
  return given
    .split(';')
    .filter((line) => line.trim() !== '')
    .map((line) => {
      const at = line.indexOf(':')
      if (at < 0)
        throw new InputError({
          field,
          value: given,
          allowed: `lines such as "${first}: ${second}; ${first}: ${second}"`,
        })
      const [value = '', rest] = more ? line.slice(at + 1).split(more[0]) : [line.slice(at + 1)]
      return {
        [first]: line.slice(0, at).trim(),
        [second]: value.trim(),
        ...(more && rest !== undefined && { [more[1]]: rest.trim() }),
      }
    })
}
