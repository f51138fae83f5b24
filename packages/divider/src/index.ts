export { type Amplifier, amplifierFields } from './amplifier.js'
export { checkDivider, type DividerBudgets, divider, dividerChanges, sweepDivider } from './block.js'
export type { Calibration } from './calibration.js'
export { type DifferenceInputs, type DifferenceReading, differenceFormulas, readingAtRail } from './chain/difference.js'
export { type ChainInputs, chainFormulas, type Reading, readingOf } from './chain/grounded.js'
export { type DividerModel, dividerModel } from './chain/model.js'
export { remedies as dividerRemedies } from './changes/index.js'
export { type DividerChoice, type DividerConditions, dividerConditions, dividerRecord } from './choice.js'
export { type Discharge, dividerOverRail, type RailPoint } from './discharge.js'
export { exampleAmplifiers, exampleChoice, exampleConditions } from './examples.js'
export type { Needed as DividerNeeded } from './needed.js'
export * from './parts.js'
export {
  type DividerRequirement,
  type DividerSizing,
  sizeDivider,
} from './size.js'
export { platinumCelsius, platinumRatio } from './thermometry/curve.js'
export { type Thermometry, thermometryFields } from './thermometry/fields.js'
