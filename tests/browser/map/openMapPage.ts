import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { type BrowserContext, type BrowserContextOptions, chromium, type Page } from 'playwright-core'
import { build } from 'vite'
import { startServer } from '../../../src/cli/startServer.ts'
import { FLAGS, fewPixels, findChromium, isComplaint, noPaint } from '../harness.ts'

/** The map's page, built and served, and a browser to see it in. */
export interface MapSite {
  open(options?: BrowserContextOptions, query?: string): Promise<OpenPage>
  close(): Promise<void>
}
export interface OpenPage {
  readonly page: Page
  readonly context: BrowserContext
  /** Console warnings and errors, page errors, and requests to any other origin, as they were told. */
  readonly complaints: readonly string[]
}

/** `painted`: its maps are drawn, for tests that look at them. */
export async function makeMapSite({ painted = false } = {}): Promise<MapSite> {
  const out = await mkdtemp(join(tmpdir(), 'selion-map-'))
  await build({
    configFile: false,
    root: fileURLToPath(new URL('./page', import.meta.url)),
    logLevel: 'warn',
    worker: { format: 'es' },
    build: { outDir: out, emptyOutDir: true, target: 'es2023', minify: false },
  })
  const server = await startServer({ dir: out, port: 0 })
  const origin = server.url.replace(/\/$/, '')
  const browser = await chromium.launch({
    executablePath: findChromium(),
    args: FLAGS,
  })
  return {
    async open(options = { viewport: { width: 1440, height: 900 } }, query = '') {
      const context = await browser.newContext(options)
      await context.addInitScript(fewPixels)
      if (!painted) await context.addInitScript(noPaint)
      const page = await context.newPage()
      const complaints: string[] = []
      page.on('console', (message) => {
        if (isComplaint(message)) complaints.push(message.text())
      })
      page.on('pageerror', (error) => complaints.push(String(error)))
      page.on('request', (request) => {
        const url = request.url()
        if (!url.startsWith(`${origin}/`) && !url.startsWith('data:') && !url.startsWith('blob:'))
          complaints.push(`asked ${url}`)
      })
      await page.goto(`${origin}/${query}`)
      await page.waitForFunction(() => 'page' in window)
      await page.evaluate(() => window.page.map.ready)
      return { page, context, complaints }
    },
    async close() {
      await browser.close()
      await server.close()
      await rm(out, { recursive: true, force: true })
    },
  }
}
