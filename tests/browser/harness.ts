import { type ChildProcess, execFileSync, spawn, spawnSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import { mkdir, mkdtemp, readdir, rm, stat } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { type BrowserContext, type ConsoleMessage, chromium, type Page } from 'playwright-core'
import { build, type InlineConfig } from 'vite'
import { demoAsset } from '../../src/build/demoAsset.ts'
import { engineAssets } from '../../src/build/engineAssets.ts'
import { startServer } from '../../src/cli/startServer.ts'

const ROOT = resolve(import.meta.dirname, '../..')

/** A browser of its own, with a profile that outlives it. */
export interface TestBrowser {
  readonly context: BrowserContext
  /** Opens a page of the served site. */
  open(path: string): Promise<Page>
  /** Ends the browser as a power cut to its processes would: all of them at once, without a word. */
  kill(): Promise<void>
  /** Closes it. Throws where a page warned, failed, or asked for anything outside its own site. */
  close(): Promise<void>
  /** What pages said that a test must not pass over, and forgets it: for tests that provoke it. */
  takeComplaints(): string[]
}

/** What Chromium is started with, headless, for tests. */
export const FLAGS = [
  '--headless',
  '--no-sandbox',
  '--use-angle=swiftshader',
  '--enable-unsafe-swiftshader',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  // Without a graphics processor Chromium puts pages together by itself; told to draw maps by SwiftShader, it would put
  // pages together by it too, at three times the work.
  '--disable-gpu-compositing',
  // The map is where it is sent to at once, however busy the machine.
  '--force-prefers-reduced-motion',
]
/** What V8 compiles anew while a page lives, to be faster later, takes longer than most of these pages live. */
const COMPILED_ONCE = '--js-flags=--wasm-tier-up-filter=0'

/** What the driver says of a canvas that is read for that. */
const READ_BACK = /GPU stall due to ReadPixels/

/** True for what a page's console says that a test must not pass over. */
export function isComplaint(message: ConsoleMessage): boolean {
  return ['warning', 'error'].includes(message.type()) && !READ_BACK.test(message.text())
}

/** Chromium as it is without a window comes first: it starts in a tenth of the work. */
const PLACES = [
  '/usr/bin/chromium-headless-shell',
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
]

/** Where Chromium is. As root on Debian it is installed where there is none. */
export function findChromium(): string {
  const found = [process.env.CHROMIUM, ...PLACES].find((path) => path && existsSync(path))
  if (found) return found
  if (process.getuid?.() === 0 && existsSync('/usr/bin/apt-get')) {
    execFileSync('apt-get', ['update'], { stdio: 'ignore' })
    for (const name of ['chromium-headless-shell', 'chromium']) {
      spawnSync('apt-get', ['install', '-y', '--no-install-recommends', name], { stdio: 'ignore' })
      if (existsSync(`/usr/bin/${name}`)) return `/usr/bin/${name}`
    }
  }
  throw new Error('The browser tests need Chromium: install it, or name it in the environment variable CHROMIUM.')
}

/** Has a page draw its map with a quarter of the pixels each way; places in it stay as they are. */
export const fewPixels = () => {
  Object.defineProperty(globalThis, 'devicePixelRatio', { get: () => 0.25 })
}

/** Has a page lay its map out and send what is to be drawn, but draw nothing of it. */
export const noPaint = () => {
  const { prototype } = WebGL2RenderingContext
  prototype.drawElements = () => undefined
  prototype.drawArrays = () => undefined
}

/** A folder for a browser's profile; the caller removes it. */
export function newProfile(): Promise<string> {
  return mkdtemp(join(tmpdir(), 'selion-profile-'))
}

/** What takes more work than the tests themselves, and is there where it is asked for. */
export interface BrowserOptions {
  /** A service worker, which puts the whole build on the device. */
  readonly offline?: boolean
  /** A map that is drawn, for tests that look at it, or at what drawing it may complain of. */
  readonly painted?: boolean
  /** A drawn map of as many pixels as a screen's, else a sixteenth of them. */
  readonly sharp?: boolean
  /** A database that is compiled as people's browsers do it, for measuring. */
  readonly tuned?: boolean
}

/** Starts a browser on a profile, for the site at `url`. */
export async function startBrowser(
  url: string,
  profile: string,
  { offline = false, painted = false, sharp = false, tuned = false }: BrowserOptions = {},
): Promise<TestBrowser> {
  const isPainted = painted || sharp
  const flags = [...FLAGS, ...(tuned ? [] : [COMPILED_ONCE])]
  const child = spawn(
    findChromium(),
    [...flags, '--remote-debugging-port=0', `--user-data-dir=${profile}`, 'about:blank'],
    {
      detached: true,
      stdio: ['ignore', 'ignore', 'pipe'],
    },
  )
  const browser = await chromium.connectOverCDP(await devToolsAddress(child))
  const context = browser.contexts()[0]!
  if (!offline)
    await context.addInitScript(() => {
      delete (Navigator.prototype as { serviceWorker?: unknown }).serviceWorker
    })
  if (!sharp) await context.addInitScript(fewPixels)
  if (!isPainted) await context.addInitScript(noPaint)
  const complaints: string[] = []
  context.on('console', (message: ConsoleMessage) => {
    if (isComplaint(message)) complaints.push(`${message.type()}: ${message.text()}`)
  })
  context.on('weberror', (error) => complaints.push(`page error: ${error.error().stack ?? error.error().message}`))
  context.on('request', (request) => {
    const asked = request.url()
    if (!asked.startsWith(url) && !/^(blob|data|about):/.test(asked)) complaints.push(`asked for ${asked}`)
  })
  const ended = new Promise<void>((done) => child.once('exit', () => done()))
  const killAll = async () => {
    if (child.pid !== undefined && child.exitCode === null) process.kill(-child.pid, 'SIGKILL')
    await ended
  }
  return {
    context,
    async open(path) {
      const page = await context.newPage()
      await page.goto(new URL(path, url).href)
      return page
    },
    async kill() {
      await killAll()
      await browser.close().catch(() => undefined)
    },
    async close() {
      await context.close().catch(() => undefined)
      await browser.close().catch(() => undefined)
      await killAll().catch(() => undefined)
      if (complaints.length > 0) throw new Error(`the page complained:\n${complaints.join('\n')}`)
    },
    takeComplaints: () => complaints.splice(0),
  }
}

function devToolsAddress(child: ChildProcess): Promise<string> {
  return new Promise((found, failed) => {
    let said = ''
    child.stderr!.on('data', (chunk: Buffer) => {
      said += chunk.toString()
      const address = /DevTools listening on (ws:\S+)/.exec(said)?.[1]
      if (address) found(address)
    })
    child.once('exit', (code) => failed(new Error(`Chromium ended with ${code}: ${said.slice(-2000)}`)))
  })
}

/** Removes a profile. The browser's last processes may still be writing. */
export function removeProfile(profile: string): Promise<void> {
  return rm(profile, { recursive: true, force: true, maxRetries: 10, retryDelay: 200 })
}

/** A built site, served on the loopback as `selion serve` does it. */
export interface Site {
  readonly url: string
  close(): Promise<void>
}

const PAGE = join(ROOT, 'dist')
const DESK_PAGE = join(ROOT, 'node_modules/.cache/selion/desk-page')

/** Serves the page that was built. */
export const servePage = (): Promise<Site> => startServer({ dir: PAGE, port: 0 })

/** Serves the bare page of these tests, which holds the desk alone. */
export const serveDesk = (): Promise<Site> => startServer({ dir: DESK_PAGE, port: 0 })

/** Builds the page, where it is older than its sources. */
export async function buildPage(): Promise<void> {
  if (await isStale(join(PAGE, 'index.html'), ['src', 'geo', 'fixtures', 'vite.config.ts', 'package-lock.json']))
    await build({ root: join(ROOT, 'src'), configFile: join(ROOT, 'vite.config.ts'), logLevel: 'warn' })
}

/** Builds the page that holds the desk alone, where it is older than its sources. */
export async function buildDeskPage(): Promise<void> {
  const sources = ['src/desk', 'src/build', 'geo', 'fixtures', 'tests/browser/desk', 'package-lock.json']
  if (await isStale(join(DESK_PAGE, 'index.html'), sources)) {
    await mkdir(DESK_PAGE, { recursive: true })
    const config: InlineConfig = {
      root: join(ROOT, 'tests/browser/desk'),
      configFile: false,
      logLevel: 'warn',
      build: { outDir: DESK_PAGE, emptyOutDir: true, target: 'es2023' },
      plugins: [engineAssets(), demoAsset()],
      worker: { format: 'es', plugins: () => [engineAssets(), demoAsset()] },
    }
    await build(config)
  }
}

async function isStale(built: string, sources: readonly string[]): Promise<boolean> {
  const { mtimeMs: builtMs } = await stat(built).catch(() => ({ mtimeMs: 0 }))
  for (const source of sources) if ((await newestMs(join(ROOT, source))) > builtMs) return true
  return false
}

async function newestMs(path: string): Promise<number> {
  const { mtimeMs } = await stat(path)
  const entries = await readdir(path, { recursive: true, withFileTypes: true }).catch(() => [])
  const times = await Promise.all(
    entries.filter((e) => e.isFile()).map(async (e) => (await stat(join(e.parentPath, e.name))).mtimeMs),
  )
  return Math.max(mtimeMs, ...times)
}
