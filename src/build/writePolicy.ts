import type { Plugin } from 'vite'
import { policyWithin } from '../cli/pagePolicy.ts'

/**
 * Writes the page's policy into its head, before all that it is for. The development server puts styles into the page as
 * they are loaded, so there any style may stand in it.
 */
export function writePolicy(): Plugin {
  let served = false
  return {
    name: 'selion-policy',
    configResolved: ({ command }) => {
      served = command === 'serve'
    },
    transformIndexHtml: {
      order: 'post',
      handler(html) {
        const within = policyWithin(served ? '' : html)
        const content = served ? within.replace("style-src 'self'", "$& 'unsafe-inline'") : within
        return html.replace('<head>', `$&\n    <meta http-equiv="Content-Security-Policy" content="${content}" />`)
      },
    },
  }
}
