/**
 * The outermost level of a formula's MathML in pieces between which a line may end: before a sign of its sum, and before a factor
 * in parentheses. Chromium breaks no line inside `<math>`, so each piece is one of its own.
 */
export function piecesOf(body: string): string[] {
  const pieces = ['']
  let depth = 0
  for (const [token] of unwrapped(body).matchAll(/<mo>[+−]<\/mo>|<[^>]*>|[^<]+/g)) {
    const isSign = depth === 0 && /^<mo>[+−]<\/mo>$/.test(token)
    const isFirst = pieces.at(-1) === ''
    if (isSign && !isFirst) pieces.push(token.replace('<mo>', '<mo form="infix">'))
    else pieces[pieces.length - 1] += token
    if (isSign) continue
    if (token.startsWith('</')) depth--
    else if (token.startsWith('<') && !token.endsWith('/>')) depth++
  }
  return pieces.flatMap(atParentheses)
}

/** Without an `<mrow>` around all of it. */
function unwrapped(body: string): string {
  if (!body.startsWith('<mrow>') || !body.endsWith('</mrow>')) return body
  let depth = 0
  for (const { 0: tag, index } of body.matchAll(/<\/?mrow[^>]*>/g)) {
    depth += tag.startsWith('</') ? -1 : 1
    if (depth === 0 && index + tag.length < body.length) return body
  }
  return body.slice('<mrow>'.length, -'</mrow>'.length)
}

const thin = '<mspace width="0.1667em"></mspace>'

/** A product in two where a factor in parentheses begins at the outermost level. */
function atParentheses(piece: string): string[] {
  const found = ['']
  let depth = 0
  for (const [token] of piece.matchAll(/<mspace[^>]*><\/mspace><mrow><mo[^>]*>\(<\/mo>|<[^>]*>|[^<]+/g)) {
    const isFactor = token.startsWith(thin) && token.length > thin.length
    if (isFactor && depth === 0) found.push(token.slice(thin.length))
    else found[found.length - 1] += token
    if (isFactor) depth++
    else if (token.startsWith('</')) depth--
    else if (token.startsWith('<') && !token.endsWith('/>')) depth++
  }
  return found
}

/** An equation whose lines may end between its pieces. */
export const displayInPieces = (left: string, body: string): string => {
  const [first = '', ...more] = piecesOf(body)
  return [`${left}<mo>=</mo>${first}`, ...more]
    .map((piece) => `<math displaystyle="true"><mrow>${piece}</mrow></math>`)
    .join(' ')
}
