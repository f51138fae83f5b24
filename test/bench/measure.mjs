/** The middle one of some numbers. */
export function median(numbers) {
  const sorted = [...numbers].sort((a, b) => a - b)
  return sorted[sorted.length >> 1]
}

/** The mean of the lowest third of some times: what the call takes where nothing else comes in between. */
export function undisturbed(times) {
  const lowest = [...times].sort((a, b) => a - b).slice(0, Math.ceil(times.length / 3))
  return lowest.reduce((sum, ms) => sum + ms, 0) / lowest.length
}

/** Milliseconds of processor time that a call takes: what other programs do in the meantime doesn't count. */
export function time(call) {
  const start = process.cpuUsage()
  call()
  const { user, system } = process.cpuUsage(start)
  return (user + system) / 1000
}

/**
 * Times several calls in turn, so that whatever else the machine does falls on all of them, and gives the median of
 * each. The first `warm` rounds don't count.
 */
export function interleaved(calls, { rounds = 7, warm = 2 } = {}) {
  const times = calls.map(() => [])
  for (let round = 0; round < warm + rounds; round++) {
    calls.forEach((call, k) => {
      const t = time(call)
      if (round >= warm) times[k].push(t)
    })
  }
  return times.map(median)
}

/** A call made `n` times, as one. */
export const repeated = (n, call) => () => {
  for (let i = 0; i < n; i++) call(i)
}
