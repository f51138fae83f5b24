import temml from 'temml'
import { symbolTex } from './symbol.ts'
import { display, inSymbols, slotOf, sumOf, type Template, termOf } from './template.ts'
import { type TexStyle, texOf } from './tex.ts'

const inTex: TexStyle = { symbol: symbolTex, times: '\\,' }
const inSlots: TexStyle = {
  symbol: (name, tight) => `{\\text{${slotOf(name, tight)}}}`,
  times: '\\text{⟦*⟧}',
  sum: (terms) =>
    `\\text{${sumOf.start}}${terms.map(({ tex, sign, zeros }) => `\\text{${termOf(sign, zeros)}}${tex}`).join('')}\\text{${sumOf.end}}`,
}

/** A formula's expression as TeX, for people who set it elsewhere. */
export const toTex = (expression: string): string => texOf(expression, inTex)

/** A formula's expression as displayed MathML, every symbol marked with `data-symbol`. */
export const toMathML = (expression: string): string => display(inSymbols(toTemplate(expression)))

/** A formula's expression as MathML with slots for its symbols, see {@link Template}. */
export function toTemplate(expression: string): Template {
  const mathML = temml.renderToString(texOf(expression, inSlots), { displayMode: true, throwOnError: true })
  return (
    mathML
      .replace(/^<math[^>]*>|<\/math>$/g, '')
      .replace(/ style="[^"]*"/g, '')
      .replace(/<mrow><mspace[^>]*><\/mspace>(<mo>[^<]*<\/mo>)<mspace[^>]*><\/mspace><\/mrow>/g, '$1')
      .replace(/<mtext>((?:⟦[^⟧]+⟧)+)<\/mtext>/g, '$1')
      // A middle dot is in every font, the operator for a product of scalars in few.
      .replaceAll('⋅', '·')
  )
}
