import { readFileSync } from 'node:fs'
import { expect, it } from 'vitest'
import { questions } from '../../docs/questions/questions.js'
import { root } from '../tools/workspace.js'

const html = (page: string) => readFileSync(`${root}docs/.vitepress/dist/${page}index.html`, 'utf8')

it('leads each of the 25 questions to places that are there', () => {
  expect(questions).toHaveLength(25)
  const missing = questions
    .flatMap(({ places }) => places.map(([, path]) => path))
    .filter((path) => {
      const [page = '', place] = path.split('#')
      return !html(page).includes(`id="${place}"`)
    })
  expect(missing).toEqual([])
})
