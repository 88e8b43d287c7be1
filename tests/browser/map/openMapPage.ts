import { existsSync } from 'node:fs'
import { mkdtemp, readFile, rm } from 'node:fs/promises'
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { extname, join, normalize } from 'node:path'
import { fileURLToPath } from 'node:url'
import { type Browser, type BrowserContext, type BrowserContextOptions, chromium, type Page } from 'playwright-core'
import { build } from 'vite'

/** Chromium's place, from SELION_CHROMIUM or where Debian puts it; null where there is none. */
export const CHROMIUM =
  [process.env.SELION_CHROMIUM, '/usr/bin/chromium'].find((path) => path && existsSync(path)) ?? null

const TYPES: Record<string, string> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.mjs': 'text/javascript',
  '.css': 'text/css',
  '.woff2': 'font/woff2',
}

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

export async function makeMapSite(): Promise<MapSite> {
  if (!CHROMIUM) throw new Error('no Chromium')
  const out = await mkdtemp(join(tmpdir(), 'selion-map-'))
  await build({
    configFile: false,
    root: fileURLToPath(new URL('./page', import.meta.url)),
    logLevel: 'warn',
    worker: { format: 'es' },
    build: { outDir: out, emptyOutDir: true, target: 'es2023', minify: false },
  })
  const server = createServer((request, response) => {
    const path = new URL(request.url ?? '/', 'http://here').pathname
    const file = join(out, normalize(path === '/' ? '/index.html' : path))
    readFile(file).then(
      (bytes) =>
        response.writeHead(200, { 'content-type': TYPES[extname(file)] ?? 'application/octet-stream' }).end(bytes),
      () => response.writeHead(404).end(),
    )
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const origin = `http://127.0.0.1:${(server.address() as AddressInfo).port}`
  const browser: Browser = await chromium.launch({
    executablePath: CHROMIUM,
    args: [
      '--no-sandbox',
      '--use-angle=swiftshader',
      '--enable-unsafe-swiftshader',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  })
  return {
    async open(options = { viewport: { width: 1440, height: 900 } }, query = '') {
      const context = await browser.newContext(options)
      const page = await context.newPage()
      const complaints: string[] = []
      page.on('console', (message) => {
        if (['warning', 'error'].includes(message.type())) complaints.push(message.text())
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
      server.closeAllConnections()
      await new Promise((resolve) => server.close(resolve))
      await rm(out, { recursive: true, force: true })
    },
  }
}
