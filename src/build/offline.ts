import { createHash } from 'node:crypto'
import { readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { type Plugin, type Rollup, build as viteBuild } from 'vite'
import { DAY } from '../map/theme/palette.ts'
import type { Build, Part } from '../offline/build.ts'

const KEEPER = fileURLToPath(new URL('../offline/keeper.ts', import.meta.url))
const PICTURES = new URL('../offline/pictures/', import.meta.url)
const MANIFEST = 'manifest.webmanifest'
const NAMES = ['mark-192.png', 'mark-512.png', 'maskable-512.png'] as const
const WORDS = 'The plan of a small mixed farm: what stands where, what it yields, and where supports should stand.'

/**
 * Makes the page one that can be put on a device and works there without a network: the manifest with the mark, and
 * `sw.js`, the service worker that keeps every file of the build. The page's own name of the build stands in its head.
 */
export function offline(): Plugin {
  let base = '/'
  return {
    name: 'selion-offline',
    apply: 'build',
    configResolved: (config) => {
      base = config.base
    },
    transformIndexHtml: () => [
      { tag: 'link', attrs: { rel: 'manifest', href: `${base}${MANIFEST}` }, injectTo: 'head' },
      { tag: 'link', attrs: { rel: 'apple-touch-icon', href: `${base}${NAMES[0]}` }, injectTo: 'head' },
    ],
    async buildStart() {
      this.emitFile({ type: 'asset', fileName: MANIFEST, source: JSON.stringify(manifest(base)) })
      for (const fileName of NAMES)
        this.emitFile({ type: 'asset', fileName, source: await readFile(new URL(fileName, PICTURES)) })
    },
    generateBundle: {
      order: 'post',
      async handler(_options, bundle) {
        nameBuild(bundle)
        const source = await keeperOf({ ...listParts(bundle, base), base })
        this.emitFile({ type: 'asset', fileName: 'sw.js', source })
      },
    },
  }
}

/** What the device shows of the page when it is put there (W3C Web Application Manifest). */
export function manifest(base: string) {
  const picture = (src: string, size: number, purpose: string) => ({
    src: `${base}${src}`,
    sizes: `${size}x${size}`,
    type: 'image/png',
    purpose,
  })
  return {
    name: 'Selion',
    short_name: 'Selion',
    description: WORDS,
    id: base,
    start_url: base,
    scope: base,
    display: 'standalone',
    background_color: DAY.paper,
    theme_color: DAY.paper,
    icons: [picture(NAMES[0], 192, 'any'), picture(NAMES[1], 512, 'any'), picture(NAMES[2], 512, 'maskable')],
  }
}

/** Writes into the page which build it is of, by what all its other files hold. */
function nameBuild(bundle: Rollup.OutputBundle): void {
  const page = bundle['index.html']
  if (page?.type !== 'asset') throw new Error('the build has no index.html')
  const hash = createHash('sha256')
  for (const name of Object.keys(bundle).sort()) hash.update(name).update(bytesOf(bundle[name]!))
  const meta = `<meta name="selion-build" content="${hash.digest('hex').slice(0, 8)}" />`
  page.source = String(page.source).replace('</head>', `  ${meta}\n  </head>`)
}

/** The demo farm's files. Once it was opened it lies on the device as any farm does; only to begin it anew takes a network. */
export const OF_DEMO = /(^|\/)demo-[^/]+\.(tar|zip|copy)$/

/** Every file of a build that is kept on a device, with its checksum, and the name of them all together. */
export function listParts(bundle: Rollup.OutputBundle, base: string): Pick<Build, 'version' | 'parts'> {
  const parts = Object.keys(bundle)
    .filter((name) => !OF_DEMO.test(name))
    .sort()
    .map((name): Part => {
      const bytes = bytesOf(bundle[name]!)
      const integrity = `sha256-${createHash('sha256').update(bytes).digest('base64')}`
      return { path: `${base}${name}`, integrity, bytes: bytes.length, hashed: /-[\w-]{8,}\.\w+$/.test(name) }
    })
  const version = createHash('sha256').update(JSON.stringify(parts)).digest('hex').slice(0, 8)
  return { version, parts }
}

const bytesOf = (file: Rollup.OutputAsset | Rollup.OutputChunk): Buffer =>
  file.type === 'chunk' ? Buffer.from(file.code) : Buffer.from(file.source)

/** The service worker's program for a build. */
async function keeperOf(build: Build): Promise<string> {
  const made = await viteBuild({
    configFile: false,
    logLevel: 'warn',
    define: { BUILD: JSON.stringify(build) },
    build: {
      write: false,
      target: 'es2023',
      lib: { entry: KEEPER, formats: ['iife'], name: 'keeper', fileName: () => 'sw.js' },
    },
  })
  const [output] = Array.isArray(made) ? made : [made]
  if (!output || !('output' in output)) throw new Error('the service worker was not made')
  return output.output[0].code
}
