/** Greek letters that symbols spell out. */
const greek: Readonly<Record<string, string>> = {
  alpha: 'α',
  beta: 'β',
  gamma: 'γ',
  delta: 'δ',
  Delta: 'Δ',
  epsilon: 'ε',
  eta: 'η',
  theta: 'θ',
  Theta: 'Θ',
  kappa: 'κ',
  lambda: 'λ',
  mu: 'μ',
  nu: 'ν',
  pi: 'π',
  rho: 'ρ',
  sigma: 'σ',
  tau: 'τ',
  phi: 'φ',
  omega: 'ω',
}

/** Subscripts that the trade writes in another way than an identifier can. */
const subscripts: Readonly<Record<string, string>> = {
  DSon: 'DS(on)',
  CEsat: 'CE(sat)',
  inf: '∞',
  excn: 'exc,n',
  refn: 'ref,n',
  swn: 'sw,n',
  leadn: 'lead,n',
  satn: 'sat,n',
  pedn: 'ped,n',
}

export interface SymbolParts {
  /** The letter or word on the line. */
  readonly base: string
  /** Quantities of one letter are italic; abbreviations of several letters are upright (ISO 80000-1, 7.1). */
  readonly italic: boolean
  readonly subscript: string
}

/** A symbol as formulas spell it (`R_DSon`, `tau`, `dT`), taken apart for typesetting. */
export function symbolParts(symbol: string): SymbolParts {
  const [head = '', tail = ''] = symbol.split('_')
  const changed = /^d([A-Z])$/.exec(head)
  const base = greek[head] ?? (changed ? `Δ${changed[1]}` : head)
  return { base, italic: base.length === 1 || changed !== null, subscript: greek[tail] ?? subscripts[tail] ?? tail }
}

/** The symbol as running text, for titles and tables of plain text: `R_x`. */
export function symbolText(symbol: string): string {
  const { base, subscript } = symbolParts(symbol)
  return subscript === '' ? base : `${base}_${subscript}`
}

/** The symbol as MathML, marked with its own name so that a reader's tool or a script can find it. */
export function symbolMathML(symbol: string): string {
  const { main, index } = inMathML(symbol)
  return marked(symbol, index === '' ? main : `<msub>${main}${index}</msub>`)
}

/** The symbol raised to a power, which stands above its subscript. */
export function symbolPower(symbol: string, power: string): string {
  const { main, index } = inMathML(symbol)
  return marked(symbol, index === '' ? `<msup>${main}${power}</msup>` : `<msubsup>${main}${index}${power}</msubsup>`)
}

function inMathML(symbol: string) {
  const { base, italic, subscript } = symbolParts(symbol)
  const upright = (text: string) => `<mi mathvariant="normal">${text}</mi>`
  const change = base.length === 2 && base.startsWith('Δ')
  // Slanted by the style sheet, not by letters of their own that many fonts lack.
  const slanted = (text: string) => `<mi class="slanted">${text}</mi>`
  const main = change ? `<mrow>${upright('Δ')}${slanted(base[1]!)}</mrow>` : italic ? slanted(base) : upright(base)
  return { main, index: subscript === '' ? '' : `<mtext>${subscript}</mtext>` }
}

const marked = (symbol: string, body: string): string => `<mrow data-symbol="${symbol}">${body}</mrow>`

/** The symbol as TeX. */
export function symbolTex(symbol: string): string {
  const { base, italic, subscript } = symbolParts(symbol)
  const main = italic ? base : `\\mathrm{${base}}`
  return subscript === '' ? main : `${main}_{\\mathrm{${subscript}}}`
}
