import { existsSync, mkdirSync, readFileSync, rmdirSync, statSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { expect } from 'vitest'
import { isFewer, isKept } from './designs.js'
import type { Line } from './tally.js'

const path = fileURLToPath(new URL('../../results/sceptic.json', import.meta.url))
const lock = `${path}.lock`
const read = (): Line[] => (existsSync(path) ? JSON.parse(readFileSync(path, 'utf8')) : [])

/**
 * Holds the lines of one block against those kept in `test/results/sceptic.json`, which the page of checked values
 * shows; with OHMWARD_UPDATE=1 it writes them. Of fewer designs, which are the first of the same, no line may be more off
 * than that of all. A longer run compares nothing: it has tried other designs.
 */
export function compareWithKept(block: string, lines: readonly Line[]): void {
  if (isKept && process.env['OHMWARD_UPDATE'] === '1') write(block, lines)
  const kept = read().filter((line) => line.block === block)
  if (isFewer) expect(lines.filter((line) => isMore(line, kept))).toEqual([])
  if (!isKept) return
  expect(kept, 'test/results/sceptic.json differs: run with OHMWARD_UPDATE=1 and review the change').toEqual(lines)
}

/** Whether a line is more off than the one that is kept, or none of that quantity is. */
function isMore({ quantity, optimistic, pessimistic }: Line, kept: readonly Line[]): boolean {
  const line = kept.find((one) => one.quantity === quantity)
  return line === undefined || optimistic > line.optimistic || pessimistic > line.pessimistic
}

/** Blocks write one after another: each is tested in a process of its own. A lock left behind by one that was stopped goes. */
function write(block: string, lines: readonly Line[]): void {
  while (true) {
    try {
      mkdirSync(lock)
      break
    } catch {
      if (existsSync(lock) && Date.now() - statSync(lock).mtimeMs > 5000) rmdirSync(lock)
    }
  }
  const all = [...read().filter((line) => line.block !== block), ...lines]
  const order = (line: Line) => `${line.block} ${line.quantity}`
  all.sort((a, b) => (order(a) < order(b) ? -1 : 1))
  writeFileSync(path, `[\n${all.map((line) => `  ${JSON.stringify(line)}`).join(',\n')}\n]\n`)
  rmdirSync(lock)
}
