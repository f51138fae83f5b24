/*
 * What a package's formulas are made of: the bare `formula` and `at`, which take what they get as it stands, so that one formula
 * alone stays within its kilobyte. What a package says there is proved by tests (`test/laws/formulas.test.ts`); everyone else takes
 * the `formula` and `at` of `@ohmward/budget`, which look at their arguments.
 */
export { at, formula } from './formula.js'
