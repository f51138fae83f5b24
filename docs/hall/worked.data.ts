import { workedExample } from '../.vitepress/build/worked.ts'
import type { Worked } from '../.vitepress/theme/work.ts'

export declare const data: Worked

export default workedExample('hall')
