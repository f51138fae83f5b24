/** A function, arguments that it takes, and where its answer may be infinite by its own documentation. */
export type Call = readonly [
  name: string,
  run: (...args: any[]) => unknown,
  args: readonly unknown[],
  mayBeInfinite?: RegExp,
]
