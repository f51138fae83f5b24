import { type Typeset, typesetFormulas } from '../.vitepress/build/worked.ts'

export declare const data: Typeset

export default typesetFormulas('method/examples.ts')
