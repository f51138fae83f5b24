import {
  checkDesignLater,
  type Design,
  type DesignAssessment,
  type DesignMap,
  firstBoard,
  firstBoardCsv,
  type Levels,
  levelsAt,
  mapDesignLater,
  type TestPoint,
} from '@ohmward/frontend'
import { type Drawn, drawnOf } from './drawn.ts'
import { type PartLink, partLinks } from './links.ts'

/** What the page shows of a design. */
export interface Whole {
  readonly assessment: DesignAssessment
  readonly map: DesignMap
  /** At the place where something of the board gives way first, or at half charge where nothing does. */
  readonly levels: Levels
  readonly drawn: Drawn
  readonly links: readonly PartLink[]
  readonly board: readonly TestPoint[]
  /** The same as CSV. */
  readonly csv: string
}

/** The whole answer; both walks take their time, so each tells how far it is. */
export async function wholeOf(design: Design, onProgress: (share: number) => void = () => {}): Promise<Whole> {
  const assessment = await checkDesignLater(design, { onProgress: (share) => onProgress(share / 2) })
  const map = await mapDesignLater(design, { onProgress: (share) => onProgress(0.5 + share / 2) })
  const place = (assessment.firstOfBoard ?? assessment.first)?.place ?? { charge: 0.5, celsius: 25, age: 0 }
  const board = firstBoard(design)
  const links = partLinks(design, assessment)
  return {
    assessment,
    map,
    levels: levelsAt(design, place),
    drawn: drawnOf(design),
    links,
    board,
    csv: firstBoardCsv(board),
  }
}
