import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import type { examples } from '../tools/choices/examples.js'
import { type Case, checks, frozenOf } from '../tools/frozen.js'
import { differences } from '../tools/frozen-differences.js'
import { choiceOfToday, measurementOfToday, numbersOfToday, switchOfToday } from './earlier.js'
import mended from './mended.json' with { type: 'json' }

/*
 * A regression, not a validation: that an answer is what it was says nothing of its being right. Thirty assessments of
 * each block are kept as the code gave them, so that a change that means to change nothing is seen to. A fault that is
 * mended gets an entry in mended.json with its reason; or, where much changes, the file is written anew, and the commit
 * says why: OHMWARD_FREEZE=1 pnpm vitest run --config test/vitest.config.ts --project frozen. That keeps the questions
 * and answers them again; without the file, they are drawn anew. Where a file was written anew, what it held before stays
 * as `BLOCK-earlier`, asked so that what was mended adds nothing: the old numbers, and no others, are wanted then.
 */

interface Mended {
  readonly block: string
  /** A case by its name; every case by default. */
  readonly case?: string
  /** Path of a number, or its beginning: `margins.edge`, `values.t_r`. */
  readonly path: string
  /** What was wrong. */
  readonly reason: string
}

const fileOf = (block: string) => new URL(`./${block}.json`, import.meta.url)
const read = (block: string): Case[] => {
  const cases = JSON.parse(readFileSync(fileOf(block), 'utf8')) as Case[]
  if (block === 'divider-earlier') return cases.map((one) => ({ ...one, choice: measurementOfToday(one.choice) }))
  if (block === 'mosfet') return cases.map((one) => ({ ...one, choice: switchOfToday(one.choice) }))
  return block === 'decoupling' ? cases.map(caseOfToday) : cases
}

/** Everything that is held: each block, and a block as it was asked earlier. */
const held = [...Object.keys(checks), 'divider-earlier']

/** A rail's case in the words and symbols of today. */
const caseOfToday = (one: Case): Case => ({
  ...one,
  choice: choiceOfToday(one.choice),
  answer: {
    ...one.answer,
    values: numbersOfToday(one.answer.values),
    margins: Object.fromEntries(
      Object.entries(one.answer.margins).map(([id, margin]) => [id, { ...margin, at: numbersOfToday(margin.at) }]),
    ),
  },
})

/** One case a block of lines, one margin a line. */
function write(block: string, cases: readonly Case[]) {
  const list = (record: object) =>
    Object.entries(record)
      .map(([name, value]) => `   ${JSON.stringify(name)}:${JSON.stringify(value)}`)
      .join(',\n')
  const texts = cases.map(({ answer, ...asked }) => {
    const { verdict, margins, budgets, values } = answer
    const answers = `"verdict":${JSON.stringify(verdict)},\n "margins":{\n${list(margins)}},\n "budgets":{\n${list(budgets)}},\n "values":${JSON.stringify(values)}`
    return `${JSON.stringify(asked).slice(0, -1)},\n"answer":{${answers}}}`
  })
  writeFileSync(fileOf(block), `[\n${texts.join(',\n')}\n]\n`)
}

const answer = (block: string, { choice, conditions, options }: Case) =>
  frozenOf(checks[block.replace('-earlier', '')]!(choice as never, conditions as never, options as never))

if (process.env['OHMWARD_FREEZE']) {
  it.each(Object.keys(checks))('%s is frozen anew', async (block) => {
    const { drawCases } = await import('./draw.js')
    const cases = existsSync(fileOf(block))
      ? read(block).map((one) => ({ ...one, answer: answer(block, one) }))
      : await drawCases(block as keyof typeof examples)
    write(block, cases)
    expect(cases).toHaveLength(30)
  })
}

/** Whether a path is like another, of which single words may be a star. */
const isLike = (path: string, like: string) => {
  const [words, wanted] = [path.split('.'), like.split('.')]
  return words.length === wanted.length && wanted.every((word, i) => word === '*' || word === words[i])
}

describe.each(held)('%s answers as it did', (block) => {
  const entries = (mended as readonly Mended[]).filter((entry) => entry.block === block || entry.block === '*')
  const covers = (entry: Mended, name: string, path: string) =>
    (entry.case ?? name) === name && (`${path}.`.startsWith(`${entry.path}.`) || isLike(path, entry.path))
  const used = new Set<Mended>()

  it.each(existsSync(fileOf(block)) ? read(block) : [])('$name', (one) => {
    const found = differences(one.answer, answer(block, one)).filter(({ path }) => {
      const entry = entries.find((each) => covers(each, one.name, path))
      if (entry !== undefined) used.add(entry)
      return entry === undefined
    })
    expect(found).toEqual([])
  })

  it('and every entry of mended.json stands for a difference', () => {
    expect(entries.filter((entry) => !used.has(entry))).toEqual([])
  })
})
