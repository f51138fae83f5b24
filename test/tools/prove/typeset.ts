import { toMathML, toTex } from '../../../docs/.vitepress/math/typeset.ts'
import { parsed, symbolsOf } from './tree.js'

/** The site's own typesetting, both ways; throws where a symbol of the expression isn't in what the reader would see. */
export function typeset(expression: string): string {
  const mathML = toMathML(expression)
  const tree = parsed(expression)
  if (typeof tree === 'string') throw new Error(tree)
  for (const symbol of symbolsOf(tree)) {
    if (symbol !== 'pi' && !mathML.includes(`data-symbol="${symbol}"`))
      throw new Error(`${symbol} isn't set: ${mathML}`)
  }
  return toTex(expression)
}
