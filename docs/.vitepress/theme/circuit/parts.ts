import type { Budget } from '@ohmward/budget'
import type { InjectionKey, Ref } from 'vue'
import { percent } from '../numbers.ts'
import type { Work } from '../work.ts'

/** What the drawing says of one part. */
export interface PartInfo {
  readonly id: string
  readonly name: string
  readonly symbol: string
  /** Its value as text. */
  readonly value: string
  /** Its tolerance, or another line of its data sheet, as it was typed. */
  readonly as: string
  /** Its share of the error's variance, 0 to 1. */
  readonly share: number
  /** The field of the form that is its value. */
  readonly field?: string
  /** Or the group whose classes it can be chosen from. */
  readonly group?: string
}

/** What every part of a drawing gets from its circuit. */
export interface Drawing {
  readonly parts: Readonly<Record<string, PartInfo>>
  readonly lit: Ref<string>
  readonly work: Work
}

export const drawingKey: InjectionKey<Drawing> = Symbol('drawing')

/** The share of the inputs that belong to a part. */
export const shareOf = (budget: Budget, inputs: readonly string[]): number =>
  budget.linear.contributions.filter(({ input }) => inputs.includes(input)).reduce((sum, { share }) => sum + share, 0)

/** A part in one sentence, for titles and screen readers. */
export const sentence = ({ name, value, as, share }: PartInfo): string =>
  `${name}: ${as === '' ? value : as}; ${percent(share)} of the error's variance`
