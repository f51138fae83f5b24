/** Where a text stops being JSON. */
export interface Fault {
  readonly line: number
  readonly column: number
  /** What could stand there. */
  readonly expected: string
}

const space = /[ \t\n\r]*/y
const string = /"(?:[^"\\\p{Cc}]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*"/uy
const scalar = /(?:-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null)(?![\w.+-])/y

/** The first place at which a text that doesn't parse stops being JSON; `null` where there is none. Both count from 1. */
export function jsonFault(text: string): Fault | null {
  const scan = new Scan(text)
  const expected = scan.value(0) ?? (scan.atEnd() ? null : 'the end of the file')
  if (expected === null) return null
  const before = text.slice(0, scan.at).split('\n')
  return { line: before.length, column: before.at(-1)!.length + 1, expected }
}

/** Reads over a text; each method answers what was expected where it stopped, `null` where all is well. */
class Scan {
  at = 0
  readonly text: string

  constructor(text: string) {
    this.text = text
  }

  over(token: RegExp): boolean {
    token.lastIndex = this.at
    const found = token.exec(this.text)
    if (found) this.at += found[0].length
    return found !== null
  }

  sign(one: string): boolean {
    this.over(space)
    if (this.text[this.at] !== one) return false
    this.at++
    return true
  }

  atEnd(): boolean {
    this.over(space)
    return this.at === this.text.length
  }

  value(depth: number): string | null {
    if (depth > 200) return 'fewer than 200 levels'
    if (this.sign('{')) return this.members('}', depth, true)
    if (this.sign('[')) return this.members(']', depth, false)
    return this.over(string) || this.over(scalar) ? null : 'a value'
  }

  members(end: string, depth: number, isNamed: boolean): string | null {
    if (this.sign(end)) return null
    do {
      if (isNamed) {
        this.over(space)
        if (!this.over(string)) return 'a name in quotation marks'
        if (!this.sign(':')) return '":"'
      }
      const inside = this.value(depth + 1)
      if (inside !== null) return inside
    } while (this.sign(','))
    return this.sign(end) ? null : `"," or "${end}"`
  }
}
