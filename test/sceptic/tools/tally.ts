import type { Assessment, Margin } from '@ohmward/budget'

/** What came of one quantity over all designs of a block. */
export interface Line {
  readonly block: string
  /** The row or the reading that was compared. */
  readonly quantity: string
  /** Comparisons made. */
  readonly count: number
  /** Largest share of the limit by which the model's worst board was worse than the claim; 0 where none was. */
  readonly optimistic: number
  /** Largest share of the limit by which the claim was worse than any board that the model found. */
  readonly pessimistic: number
}

/** Two digits, and what is no more than rounding is nothing. */
const rounded = (x: number) => (x < 1e-9 ? 0 : Number(x.toPrecision(2)))

/** Deviations of the claims of a block from an independent model, by quantity. */
export class Tally {
  private readonly lines = new Map<string, { count: number; optimistic: number; pessimistic: number; worst: string }>()
  private readonly block: string

  constructor(block: string) {
    this.block = block
  }

  /**
   * Files a claim beside the truth of the model, as slack: positive passes.
   *
   * @param scale - what a deviation is a share of
   */
  slack(quantity: string, claimed: number, found: number, scale: number, design = ''): void {
    const line = this.lines.get(quantity) ?? { count: 0, optimistic: 0, pessimistic: 0, worst: '' }
    const off = (claimed - found) / Math.abs(scale || 1)
    if (off > line.optimistic)
      line.worst = `${design}: ${claimed.toPrecision(6)} claimed, ${found.toPrecision(6)} found`
    line.optimistic = Math.max(line.optimistic, off)
    line.pessimistic = Math.max(line.pessimistic, -off)
    line.count += 1
    this.lines.set(quantity, line)
  }

  /**
   * Files a margin: the least slack of the model is that of the worst board found. Where both are beyond the limit by
   * more than twice its size, how far says nothing.
   */
  margin({ id, slack, limit, worst }: Margin, found: number, design = ''): void {
    const size = Math.abs(limit)
    if (slack < -2 * size && found < -2 * size) return
    this.slack(id, slack, found, Math.max(size, Math.abs(worst)), design)
  }

  /** Files a value that should be the same: any difference counts as optimistic. */
  same(quantity: string, claimed: number, found: number, design = ''): void {
    const off = Math.abs(claimed - found)
    this.slack(quantity, off, 0, Math.max(Math.abs(claimed), Math.abs(found)), design)
  }

  /** The lines, by name. */
  results(): Line[] {
    return [...this.lines]
      .map(([quantity, { count, optimistic, pessimistic }]) => ({
        block: this.block,
        quantity,
        count,
        optimistic: rounded(optimistic),
        pessimistic: rounded(pessimistic),
      }))
      .sort((a, b) => (a.quantity < b.quantity ? -1 : 1))
  }

  /**
   * Quantities whose claim was better than a board of the model by more than a share of the limit.
   *
   * @param known - larger shares of single quantities, for reasons that stand beside them
   */
  tooGood(share: number, known: Readonly<Record<string, number>> = {}): string[] {
    return [...this.lines]
      .filter(([quantity, { optimistic }]) => optimistic > (known[quantity] ?? share))
      .map(([quantity, { optimistic, worst }]) => `${quantity}: ${optimistic.toPrecision(3)} of the limit, ${worst}`)
  }
}

/** A margin of an assessment by its word. */
export const marginOf = ({ margins }: Pick<Assessment, 'margins'>, id: string): Margin | undefined =>
  margins.find((margin) => margin.id === id)
