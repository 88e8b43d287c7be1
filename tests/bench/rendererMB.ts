import { readFileSync } from 'node:fs'
import type { TestBrowser } from '../browser/harness.ts'

const MB = 1e6

/** Resident memory of the largest renderer, as Linux tells it. */
export async function rendererMB(browser: TestBrowser): Promise<number> {
  const session = await browser.context.browser()!.newBrowserCDPSession()
  const { processInfo } = (await session.send('SystemInfo.getProcessInfo')) as {
    processInfo: { type: string; id: number }[]
  }
  const renderers = processInfo.filter(({ type }) => type === 'renderer')
  const sizes = renderers.map(({ id }) => {
    const [, kB] = readFileSync(`/proc/${id}/status`, 'utf8').match(/VmRSS:\s+(\d+) kB/) ?? []
    return (Number(kB) * 1024) / MB
  })
  return Math.max(...sizes)
}
