import { describe, expect, it } from 'vitest'
import { jsonFault } from '../src/design/json-fault.js'

describe('a text that is no JSON', () => {
  const texts = [
    '{"a": [1, -2.5e3, true, null], "b": {"c": "x\\u00e9\\n", "d": {}}, "e": []}',
    '[{"version":1},\n [false, 0.5, "\\\\"],\r\n\t{"a b": 1e-9}]',
    '"one"',
    '-0',
  ]
  const others = ['', ',', ':', '"', '{', '}', '[', ']', '0', 'x', ' ', '\n', '\\', '.', '-', 'e', 'true', '\t']

  it('is told from one that is, wherever a character is left out, put in or put in the place of another', () => {
    let faults = 0
    for (const text of texts)
      for (let i = 0; i <= text.length; i++)
        for (const other of others)
          for (const rest of [text.slice(i), text.slice(i + 1)]) {
            const one = text.slice(0, i) + other + rest
            let isGood = true
            try {
              JSON.parse(one)
            } catch {
              isGood = false
            }
            const fault = jsonFault(one)
            expect(fault === null, JSON.stringify(one)).toBe(isGood)
            if (fault === null) continue
            faults++
            const lines = one.split('\n')
            const { line, column } = fault
            expect(line).toBeLessThanOrEqual(lines.length)
            expect(column).toBeGreaterThanOrEqual(1)
            expect(column).toBeLessThanOrEqual(lines[line - 1]!.length + 1)
          }
    expect(faults).toBeGreaterThan(1000)
  })

  it('is told with its line, its column and what could stand there', () => {
    const at = (text: string) => {
      const { line, column, expected } = jsonFault(text)!
      return `${line}:${column} ${expected}`
    }
    expect(at('{"a" 1}')).toBe('1:6 ":"')
    expect(at('{"a": 1 "b": 2}')).toBe('1:9 "," or "}"')
    expect(at('[1\n2]')).toBe('2:1 "," or "]"')
    expect(at('{"a": 1,}')).toBe('1:9 a name in quotation marks')
    expect(at('[1,\n  ]')).toBe('2:3 a value')
    expect(at('')).toBe('1:1 a value')
    expect(at('{}\n\n  {}')).toBe('3:3 the end of the file')
    expect(at('[01]')).toBe('1:2 a value')
    // Two hundred levels are read, and no more.
    expect(jsonFault('['.repeat(200) + ']'.repeat(200))).toBeNull()
    expect(jsonFault('['.repeat(202) + ']'.repeat(202))!.expected).toMatch(/200/)
  })
})
