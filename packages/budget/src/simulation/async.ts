import type { Simulation } from '../budget/budget.js'
import type { Inputs, Model } from '../model/model.js'
import { knownOptions, shared } from '../model/options.js'
import { type Progress, type SimulateOptions, simulation } from './index.js'
import { simulateNames } from './options.js'

/** What the runtime's `AbortSignal` is asked for. */
export interface Signal {
  readonly aborted: boolean
  readonly reason: unknown
}

/** How a long simulation is followed and stopped. */
export interface SimulateAsyncOptions<K extends string> extends SimulateOptions<K> {
  /** Told after every step. */
  readonly onProgress?: (progress: Progress) => void
  /** An `AbortSignal`: once aborted, the promise is rejected with its reason. */
  readonly signal?: Signal
}

/** Every browser and Node have it; the language alone doesn't. */
declare function setTimeout(callback: () => void, milliseconds: number): unknown

/** Longest time in milliseconds for which the event loop is kept waiting, as far as one step allows. */
const PATIENCE = 8

/**
 * {@link simulate} for long runs: hands the thread back between steps, tells its progress and can be stopped. The answer
 * is the very same.
 *
 * @throws InputError (as a rejection) like {@link simulate}, and the signal's reason when it is aborted
 */
export async function simulateAsync<const K extends string>(
  inputs: Inputs<K>,
  model: Model<NoInfer<K>>,
  options: SimulateAsyncOptions<NoInfer<K>> = {},
): Promise<Simulation> {
  const { onProgress, signal, ...rest } = knownOptions(options, [...shared, ...simulateNames, 'onProgress', 'signal'])
  const run = simulation(inputs, model, rest)
  for (let since = Date.now(); ; ) {
    if (signal?.aborted) throw signal.reason
    const step = run.next()
    if (step.done) return step.value
    onProgress?.(step.value)
    if (Date.now() - since < PATIENCE) continue
    await new Promise<void>((resolve) => setTimeout(resolve, 0))
    since = Date.now()
  }
}
