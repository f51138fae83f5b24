const policy = ["default-src 'self'", "base-uri 'none'", "object-src 'none'", "form-action 'none'"].join('; ')

/**
 * Makes a page fit a strict content-security policy and states that policy: no inline script, no inline style,
 * nothing from another host, no eval. VitePress' one remaining inline script serves its default theme only.
 */
export function strict(html: string): string {
  const page = html.replace(/<script id="check-mac-os">[\s\S]*?<\/script>/, '')
  if (/<script(?![^>]*\bsrc=)[^>]*>/.test(page))
    throw new Error('a page holds an inline script, which the policy forbids')
  return page.replace('<head>', `<head>\n    <meta http-equiv="Content-Security-Policy" content="${policy}">`)
}
