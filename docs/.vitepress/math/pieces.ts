const thin = '<mspace width="0.1667em"></mspace>'
const sign = /^<mo>[+−]<\/mo>$/
const opening = /^<mo[^>]*>\(<\/mo>$/
const comma = /^<mo[^>]*>,<\/mo>$/
const tokens = /<mo[^>]*>[^<]*<\/mo>|<mspace[^>]*><\/mspace>|<[^>]*>|[^<]+/g

/**
 * A formula's MathML in pieces between which a line may end: before a sign of a sum, before a factor in parentheses, and behind a comma,
 * outside fractions, roots and powers. Chromium breaks no line inside `<math>`, so each piece is one of its own; rows that only group are
 * given up for that, but for parentheses around a fraction, which are as high as it is.
 */
export function piecesOf(body: string): string[] {
  const pieces: string[] = ['']
  const open: string[] = []
  let before = ''
  for (const { 0: token, index } of body.matchAll(tokens)) {
    const isOutside = open.every((tag) => tag === group)
    const isStart = isOutside && token === '<mrow>' && !isWhole(body.slice(index + token.length))
    const isEnd = isOutside && token === '</mrow>' && open.length > 0
    if (/^<\/(?!.*<)/.test(token)) open.pop()
    else if (/^<(?!.*<)/.test(token)) open.push(isStart ? group : token)
    if (isStart || isEnd) continue
    const isFirst = before === '' || opening.test(before) || comma.test(before)
    const isSign = isOutside && sign.test(token)
    if (isSign && !isFirst) pieces.push(token.replace('<mo>', '<mo form="infix">'))
    else if (isOutside && before === thin && (opening.test(token) || token === '<mrow>')) {
      pieces[pieces.length - 1] = pieces.at(-1)!.slice(0, -thin.length)
      pieces.push(token)
    } else pieces[pieces.length - 1] += isSign ? token.replace('<mo>', '<mo form="prefix">') : token
    if (isOutside && comma.test(token)) pieces.push('')
    before = token
  }
  return pieces.filter((piece) => piece !== '')
}

/** A row that is given up. */
const group = 'group'

/** Whether what begins a row is parentheses around a fraction. */
function isWhole(rest: string): boolean {
  let depth = 1
  for (const { 0: token, index } of rest.matchAll(/<(\/?)mrow[^>]*>/g)) {
    depth += token.startsWith('</') ? -1 : 1
    if (depth === 0) return /^<mo[^>]*>\(<\/mo>/.test(rest) && rest.slice(0, index).includes('<mfrac')
  }
  return true
}

/** An equation whose lines may end between its pieces. */
export function displayInPieces(left: string, body: string): string {
  const [first = '', ...more] = piecesOf(body)
  return [`${left}<mo>=</mo>${first}`, ...more]
    .map((piece) => `<math displaystyle="true"><mrow>${piece}</mrow></math>`)
    .join(' ')
}
