import { InputError } from '@ohmward/quantity'
import { isObject, kinds, type Part } from './part.ts'
import { partOf } from './shapes.ts'

const allowed = `parts by kind, then by name: { "${kinds[0]}": { "my part": { … } } }`

/** Reads parts by kind and name. @throws InputError naming the line where it is no JSON, or the part and its field */
export function readJson(text: string): Part[] {
  const file = parsed(text)
  if (!isObject(file)) throw new InputError({ field: 'file', value: file, allowed })
  return Object.entries(file).flatMap(([word, parts]) => {
    const kind = kinds.find((one) => one === word)
    if (kind === undefined) {
      throw new InputError({
        field: `file.${word}`,
        value: parts,
        allowed: 'nothing',
        hint: `Kinds: ${kinds.join(', ')}`,
      })
    }
    if (!isObject(parts)) throw new InputError({ field: kind, value: parts, allowed: 'parts by name' })
    return Object.entries(parts).map(([name, limits]) => {
      const at = `${kind}.${name}`
      if (!isObject(limits))
        throw new InputError({ field: at, value: limits, allowed: 'the limits of a part by field' })
      return partOf(kind, name, limits, at)
    })
  })
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''))
  } catch (error) {
    const { line, value } = placeOf(String(error), text)
    throw new InputError({ field: line === undefined ? 'file' : `line ${line}`, value, allowed: 'JSON' })
  }
}

/** Where a browser says that the JSON breaks: by a line, or by a place in the text. */
function placeOf(message: string, text: string): { readonly line?: number; readonly value: string } {
  const lines = text.split('\n')
  const place = /position (\d+)/.exec(message)?.[1]
  const told = /line (\d+)/.exec(message)?.[1]
  const line = place !== undefined ? text.slice(0, Number(place)).split('\n').length : told && Number(told)
  return line ? { line, value: lines[line - 1]?.trim() ?? '' } : { value: text.trim() }
}
