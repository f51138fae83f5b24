/** What is said of inputs, which the library calls by their symbols, in the page's words; a symbol without words stays. */
export const named = (text: string, names: Readonly<Record<string, string>>): string =>
  text.replace(
    /(^|; )([A-Za-z]\w*)(?=: )/g,
    (all, before: string, symbol: string) => before + (names[symbol] ?? all.slice(before.length)),
  )
