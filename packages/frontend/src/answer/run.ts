import type { Signal } from '@ohmward/budget'

/** How a long answer is followed and stopped. */
export interface RunOptions {
  /** Called after every step with the share of the work done, 0 to 1. */
  readonly onProgress?: (share: number) => void
  /** An `AbortSignal`: once aborted, the promise is rejected with its reason. */
  readonly signal?: Signal
}

/** Every browser and Node have it; the language alone doesn't. */
declare function setTimeout(callback: () => void, milliseconds: number): unknown

/** Longest time in milliseconds for which the event loop is kept waiting, as far as one step allows. */
const patience = 8

/** An answer that is worked out in steps, at once. */
export function now<T>(steps: Generator<number, T>): T {
  for (;;) {
    const step = steps.next()
    if (step.done) return step.value
  }
}

/** An answer that is worked out in steps, the thread handed back between them. */
export async function later<T>(steps: Generator<number, T>, { onProgress, signal }: RunOptions): Promise<T> {
  for (let since = Date.now(); ; ) {
    if (signal?.aborted) throw signal.reason
    const step = steps.next()
    if (step.done) return step.value
    onProgress?.(step.value)
    if (Date.now() - since < patience) continue
    await new Promise<void>((resolve) => setTimeout(resolve, 0))
    since = Date.now()
  }
}
