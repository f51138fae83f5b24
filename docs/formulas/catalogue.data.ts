import { type Chapter, catalogue } from '../.vitepress/build/catalogue.ts'
import { watch } from '../.vitepress/build/sources.ts'

export declare const data: readonly Chapter[]

export default { watch, load: catalogue }
