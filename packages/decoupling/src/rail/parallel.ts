import { capacitanceOfTwo, seriesResistanceOfTwo } from '../formulas/index.js'
import type { Branch } from '../waveform/inside.js'

/** Series resistance of all kinds side by side, for where the rail is fast against each. */
export const inParallel = (branches: readonly Pick<Branch, 'resistance'>[]): number =>
  branches.reduce(
    (all, { resistance }) => seriesResistanceOfTwo({ ESR_1: all, ESR_2: resistance }),
    Number.POSITIVE_INFINITY,
  )

/** Capacitance of all kinds side by side, for where the rail is slow against each. */
export const together = (branches: readonly Pick<Branch, 'capacitance'>[]): number =>
  branches.reduce((all, { capacitance }) => capacitanceOfTwo({ C_1: all, C_2: capacitance }), 0)
