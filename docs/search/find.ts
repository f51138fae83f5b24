/** A place of the site that can be searched for. */
export interface Findable {
  /** What kind of place: `pitfall`, `formula`, `margin`. */
  readonly kind: string
  readonly name: string
  /** What else is said there, or what it is. */
  readonly says: string
  readonly path: string
}

/** What may be typed, and the words under which that stands here. Each may be typed in part. */
const alsoCalled: readonly (readonly [typed: string, names: readonly string[]])[] = [
  ['ma per count', ['current for one count', 'smallest step of the reading']],
  ['milliamperes per count', ['current for one count', 'smallest step of the reading']],
  ['ohms per count', ['resistance per count']],
  ['ohm per count', ['resistance per count']],
  ['volts per count', ['voltage of one count', 'rail for one count']],
  ['which capacitor', ['capacitors that would do']],
  ['settling formula', ['settling time', 'time to settle']],
  ['shoot-through', ['coupled by a drain edge', 'complementary']],
  ['shoot through', ['coupled by a drain edge', 'complementary']],
  ['kelvin', ['four wires', 'two wires', 'sense tap', 'sense pair']],
  ['shunt', ['shunt', 'reference resistor']],
  ['esr', ['esr', 'series resistance']],
  ['esl', ['esl', 'series inductance']],
  ['ldo', ['regulator']],
  ['dropout', ['dropout', 'drops out']],
  ['brownout', ['brown-out']],
  ['inrush', ['inrush', 'insertion', 'plugged in']],
  ['lsb', ['count']],
  ['adc', ['converter']],
  ['opamp', ['amplifier']],
  ['op-amp', ['amplifier']],
  ['soa', ['safe operating area']],
  ['ground bounce', ['shared ground', 'ground bounce']],
  ['rdson', ['on-resistance']],
  ['rds(on)', ['on-resistance']],
  ['cmrr', ['common-mode rejection']],
  ['psrr', ['supply rejection']],
  ['thermocouple', ['thermoelectric']],
  ['flyback', ['freewheel']],
  ['uvlo', ['cut-off', 'brown-out']],
]

/** Words of a question that lead nowhere. */
const small = new Set(
  'a an the my this that is are does do of for from in on what which where how come comes design'.split(' '),
)

/** The order in which kinds are worth more where all else is equal. */
const kinds = ['page', 'question', 'pitfall', 'margin', 'part', 'formula', 'function', 'caution']

/**
 * The places that say every word of a query, or another name of it, the best first: what has it in its name before what
 * only says it.
 */
export function find(all: readonly Findable[], query: string, most = 40): Findable[] {
  const text = query.toLowerCase().trim()
  if (text === '') return []
  let rest = text
  const wanted: (readonly string[])[] = []
  for (const [typed, names] of alsoCalled) {
    if (!beginsIn(rest, typed)) continue
    wanted.push(names)
    rest = rest.replace(typed, ' ')
  }
  const words = rest.split(/[\s,;?]+/).filter(Boolean)
  const telling = words.filter((word) => !small.has(word))
  for (const word of telling.length + wanted.length > 0 ? telling : words) wanted.push([word])
  return all
    .map((one, at) => ({ one, at, worth: worthOf(one, wanted) }))
    .filter(({ worth }) => worth > 0)
    .sort((a, b) => b.worth - a.worth || kindOf(a.one) - kindOf(b.one) || a.at - b.at)
    .slice(0, most)
    .map(({ one }) => one)
}

const kindOf = ({ kind }: Findable): number => (kinds.indexOf(kind) + kinds.length + 1) % (kinds.length + 1)

/** Nothing where a word is missing; more where it stands in the name, and that is short. */
function worthOf({ name, says }: Findable, wanted: readonly (readonly string[])[]): number {
  const [head, body] = [name.toLowerCase(), says.toLowerCase()]
  let worth = 0
  for (const names of wanted) {
    const best = Math.max(...names.map((word) => (beginsIn(head, word) ? 8 : beginsIn(body, word) ? 3 : 0)))
    if (best === 0) return 0
    worth += best
  }
  return worth / (1 + head.length / 400)
}

/** Whether a text has a word that begins so. */
function beginsIn(text: string, word: string): boolean {
  for (let at = text.indexOf(word); at >= 0; at = text.indexOf(word, at + 1))
    if (at === 0 || !/[a-z0-9]/.test(text[at - 1]!)) return true
  return false
}
