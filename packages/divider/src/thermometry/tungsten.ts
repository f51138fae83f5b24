import { straightBetween } from './curve.js'

/**
 * Resistivity of pure, annealed tungsten in microohm centimetres from 300 K on, each 100 K (Jones and Langmuir, General
 * Electric Review 30, 1927; from memory). The resistance follows it; that the wire grows is less than the tables differ.
 */
const resistivity = [5.65, 8.06, 10.56, 13.23, 16.09, 19.0, 21.94, 24.93, 27.94, 30.98, 34.08, 37.19, 40.36] as const

/** Tungsten as a curve, over its resistance at 300 K; straight beyond its ends. */
export const tungstenCurve = /*#__PURE__*/ (() =>
  straightBetween(resistivity.map((rho, i) => [300 + 100 * i - 273.15, rho / resistivity[0]] as const)))()
