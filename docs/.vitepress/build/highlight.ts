const escapes: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '{': '&#123;',
  '}': '&#125;',
}
const escaped = (text: string): string => text.replace(/[&<>{}]/g, (c) => escapes[c]!)

const word =
  /\b(?:import|from|export|const|let|type|interface|return|new|for|of|if|else|async|await|function|true|false|null)\b/
const token = new RegExp(
  `(\\/\\/[^\\n]*|\\/\\*[^]*?\\*\\/)|('(?:[^'\\\\\\n]|\\\\.)*'|"(?:[^"\\\\\\n]|\\\\.)*"|\`[^\`]*\`)|(${word.source})`,
  'g',
)

/** Code as HTML with three classes and no inline style: what a strict content-security policy lets pass. */
export function colour(code: string): string {
  let html = ''
  let end = 0
  for (const match of code.matchAll(token)) {
    const [text, comment, string] = match
    const name = comment ? 'comment' : string ? 'string' : 'word'
    html += `${escaped(code.slice(end, match.index))}<span class="${name}">${escaped(text)}</span>`
    end = match.index + text.length
  }
  return html + escaped(code.slice(end))
}

const coloured = new Set(['ts', 'typescript', 'js', 'json'])

/** For VitePress, in place of its highlighter, whose colours are inline styles. */
export function highlight(code: string, language: string): string {
  const body = coloured.has(language) ? colour(code) : escaped(code)
  const kind = language === 'text' ? 'code output' : 'code'
  return `<pre class="${kind}" v-pre tabindex="0"><code>${body}</code></pre>`
}
