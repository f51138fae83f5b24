import {
  checkDesign,
  checkDesignLater,
  decouplingAt,
  designChanges,
  designSchema,
  dividerAt,
  exampleDesign,
  firstBoard,
  firstBoardCsv,
  hallAt,
  levelsAt,
  mapDesign,
  mapDesignLater,
  mosfetAt,
  parseDesign,
  previewDesign,
  previewDesignLater,
  readDesign,
  simulateBoards,
  simulateBoardsLater,
  solveAt,
  solveOver,
  walkOf,
  withChange,
  writeDesign,
} from '@ohmward/frontend'

const design = readDesign(exampleDesign)
const place = { charge: 0.5, celsius: 25, age: 0 }

export const examples = [
  () => {
    const { verdict, first } = checkDesign(exampleDesign, { charges: 2 })
    return [verdict, first?.block, first?.margin.name]
  },
  async () => {
    const stop = new AbortController()
    const onProgress = () => stop.abort()
    return checkDesignLater(exampleDesign, { onProgress, signal: stop.signal }).catch(
      (error) => `stopped: ${error.name}`,
    )
  },
  () => designChanges(exampleDesign, { walked: 0, checks: 2 }).text,
  () => withChange(exampleDesign, { puts: { 'load.resistance': '1 ohm ±5 %' } }).load,
  () => mapDesign(exampleDesign, { charges: 2 }).rows.length,
  async () => mapDesignLater(exampleDesign, { signal: AbortSignal.abort() }).catch((error) => `stopped: ${error.name}`),
  () => {
    const { charges, rows } = previewDesign(exampleDesign, { charges: 3 })
    return rows.slice(0, 2).map(({ name, cells }) => [name, charges, cells.map((cell) => cell?.estimate)])
  },
  async () =>
    previewDesignLater(exampleDesign, { signal: AbortSignal.abort() }).catch((error) => `stopped: ${error.name}`),
  () => simulateBoards(exampleDesign, { boards: 100 }).interval,
  async () =>
    simulateBoardsLater(exampleDesign, { signal: AbortSignal.abort() }).catch((error) => `stopped: ${error.name}`),
  () => levelsAt(exampleDesign, place).rails,
  () => firstBoardCsv(firstBoard(exampleDesign)).split('\n').slice(0, 4),
  () => parseDesign(writeDesign(exampleDesign)).version,
  () => Object.keys(designSchema().properties ?? {}),
  () => [
    solveAt(design, place).rail,
    solveOver(design, { charge: { from: 0.1, to: 1 }, celsius: { from: 0, to: 50 }, age: { from: 0, to: 1 } }).rail,
  ],
  () => walkOf(design, { charges: 3 }).charges,
  () => {
    const { firmware } = walkOf(design)
    const solved = solveAt(design, place)
    return [dividerAt(design, solved, firmware).conditions, hallAt(design, solved, firmware).conditions]
  },
  () => {
    const solved = solveAt(design, place)
    return [mosfetAt(design, solved).conditions, decouplingAt(design, solved).conditions]
  },
]
