import { readFileSync } from 'node:fs'
import { assess, type Block, cautionsFor } from '@ohmward/budget'
import { decoupling } from '@ohmward/decoupling'
import { divider } from '@ohmward/divider'
import { hall } from '@ohmward/hall'
import { mosfet } from '@ohmward/mosfet'
import { describe, expect, it } from 'vitest'
import { choiceOfToday } from '../frozen/earlier.js'
import type { Case } from '../tools/frozen.js'

const blocks: Readonly<Record<string, Block<any, any, any, any>>> = { divider, hall, mosfet, decoupling }
const cases = (name: string): Case[] => {
  const all = JSON.parse(readFileSync(new URL(`../frozen/${name}.json`, import.meta.url), 'utf8')) as Case[]
  return name === 'decoupling' ? all.map((one) => ({ ...one, choice: choiceOfToday(one.choice) })) : all
}

describe.each(Object.keys(blocks))('cautions of %s', (name) => {
  const block = blocks[name]!

  it.each(cases(name).filter((_, i) => i % 5 === 1))(
    'alone are those of its check: $name',
    ({ choice, conditions }) => {
      const { cautions } = assess(block, choice, conditions, { simulation: false })
      expect(cautionsFor(block, choice, conditions)).toEqual(cautions)
    },
  )
})
