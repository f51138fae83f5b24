/**
 * A table of points as people write it, as the objects that it stands for: `25 °C: 1; 125 °C: 1.42` with the keys
 * `celsius` and `factor`. What isn't a text stays as it is.
 *
 * @param keys - of what stands before and behind the colon
 * @param more - a word and the key of what follows it: `1.8 V: 32 mohm typ 22 mohm`
 */
export function tableOf(
  given: unknown,
  [first, second]: readonly [string, string],
  more?: readonly [word: string, key: string],
): unknown {
  if (typeof given !== 'string') return given
  return given
    .split(';')
    .filter((line) => line.trim() !== '')
    .map((line) => {
      const at = line.indexOf(':')
      if (at < 0) return { [first]: line.trim() }
      const [value = '', rest] = more ? line.slice(at + 1).split(more[0]) : [line.slice(at + 1)]
      return {
        [first]: line.slice(0, at).trim(),
        [second]: value.trim(),
        ...(more && rest !== undefined && { [more[1]]: rest.trim() }),
      }
    })
}
