/** What a change starts from: the choice and its conditions as they were given, and as they were read. */
export interface ChangeStart {
  readonly choice: unknown
  readonly conditions: unknown
  readonly read: unknown
  /** Parts to choose from, by path and name, in the place of invented classes. */
  readonly parts?: Readonly<Record<string, Readonly<Record<string, unknown>>>>
}

/** One way to carry out a change: what is put where, as a reader would type it. */
export interface Rung {
  /** Values by path: `gainResistors.feedback`, `capacitors.0.count`, `conditions.rail.from`; undefined leaves the field out. */
  readonly puts: Readonly<Record<string, unknown>>
  /** What it is then, in words: `18 kohm ±1 %`. */
  readonly text: string
}

/** A remedy as something that can be done, tried and undone. */
export interface ChangeSpec {
  readonly id: string
  /** What is done, in words: `smaller feedback resistor`. */
  readonly name: string
  /**
   * Ways to do it. `mildest first`: each goes further than the one before, so the first that is enough is looked for by
   * halving. `any`: they are of no order, and each is tried.
   */
  readonly order: 'mildest first' | 'any'
  /** Whether it changes the task itself: it stands behind all others, however much it mends. */
  readonly isTask?: true
  /** Whether it costs no part: a number of the firmware. It is tried first, and stands first where it is enough. */
  readonly isFree?: true
  /** The ways open to this choice; none where the change is done already or has no sense here. */
  readonly rungs: (given: ChangeStart) => readonly Rung[]
}

/** What may be changed where a row fails, by the row's id, the best known first. */
export type Remedies = Readonly<Record<string, readonly ChangeSpec[]>>
