import { readFileSync } from 'node:fs'
import ts from 'typescript'
import { root } from '../tools/workspace.js'

/** An exported function and arguments that it takes, as the reference's examples call it. */
export interface Recorded {
  /** `@ohmward/supply feed` */
  readonly name: string
  readonly run: (...args: unknown[]) => unknown
  readonly args: readonly unknown[]
}

/**
 * Runs the reference's examples of one page, and keeps how each exported function was called: by the example itself where it is, else
 * by what was called.
 *
 * @param page - `supply`: the file of the examples
 * @param modules - what they import, by its name
 */
export async function recordedCalls(page: string, modules: Readonly<Record<string, object>>): Promise<Recorded[]> {
  const calls = new Map<string, Recorded & { depth: number }>()
  let depth = 0
  const listened = (name: string): object =>
    new Proxy(modules[name]!, {
      get(target, key) {
        const value: unknown = Reflect.get(target, key)
        if (typeof value !== 'function' || typeof key !== 'string' || key === 'InputError') return value
        const called = `${name} ${key}`
        const run = value as Recorded['run']
        return Object.assign((...args: unknown[]) => {
          if (depth < (calls.get(called)?.depth ?? Number.POSITIVE_INFINITY))
            calls.set(called, { name: called, run, args, depth })
          depth++
          try {
            return run(...args)
          } finally {
            depth--
          }
        }, value)
      },
    })
  const compilerOptions = { module: ts.ModuleKind.CommonJS, target: ts.ScriptTarget.ES2022 }
  const text = readFileSync(`${root}docs/api/examples/${page}.ts`, 'utf8')
  const exported: { examples: readonly (() => unknown)[] } = { examples: [] }
  new Function('require', 'exports', ts.transpileModule(text, { compilerOptions }).outputText)(listened, exported)
  for (const example of exported.examples) await example()
  return [...calls.values()]
}
