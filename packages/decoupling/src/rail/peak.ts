import { type BiasedBranch, type Curve, Lately, plugInBiased, type Source } from '../waveform/inside.js'

/** Numbers of the question: of the source, whose limit changes nothing, and of each kind that charges. */
const ofSource = 4
const ofBranch = 4

/** Peaks that were followed lately: nothing of the load changes them. */
const peaks = /*#__PURE__*/ new Lately(1024, 1)

/** Numbers of curves, by which they are known again. */
const curves = /*#__PURE__*/ new WeakMap<Curve, number>()
let last = 0

function numberOf(curve: Curve | undefined): number {
  if (curve === undefined) return 0
  const known = curves.get(curve) ?? ++last
  curves.set(curve, known)
  return known
}

/**
 * Highest rail voltage when a source is plugged onto empty capacitors.
 *
 * @param share - length of a step, where capacitances depend on their voltage
 */
export function peakOf(source: Source, branches: readonly BiasedBranch[], share?: number): number {
  const { voltage, resistance, inductance } = source
  const { asked, told } = peaks
  asked[0] = voltage
  asked[1] = resistance
  asked[2] = inductance
  asked[3] = share ?? -1
  for (let k = 0; k < branches.length; k++) {
    const { capacitance, resistance, inductance, bias } = branches[k]!
    const at = ofSource + ofBranch * k
    asked[at] = capacitance
    asked[at + 1] = resistance
    asked[at + 2] = inductance
    asked[at + 3] = numberOf(bias)
  }
  peaks.answer(ofSource + ofBranch * branches.length, () => {
    told[0] = plugInBiased(source, branches, share).peak
  })
  return told[0]!
}
