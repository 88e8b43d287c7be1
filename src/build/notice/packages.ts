import { readdir, readFile } from 'node:fs/promises'
import { join, relative } from 'node:path'
import { fileURLToPath } from 'node:url'

const ROOT = fileURLToPath(new URL('../../../', import.meta.url))

/** Folders and files whose code the page never loads: the command line, the build, what makes the engine's files, the server. */
const NOT_OF_THE_PAGE = /^(src\/(cli|build)\/|geo\/store\/(template\/|server\.ts$))/

/** Comes into the page by the files that the engine is started from, not by an import. */
const BY_ITS_FILES = '@electric-sql/pglite-postgis'

/** A package that is built into the page, as the lock file and its own folder tell. */
export interface BuiltIn {
  readonly name: string
  readonly version: string
  /** SPDX expression, as the package says. */
  readonly licence: string
  readonly home: string
  /** The licence's text as it comes with the package, or null where it comes with none. */
  readonly text: string | null
}

interface Manifest {
  readonly version: string
  readonly license?: string
  readonly homepage?: string
  readonly repository?: string | { readonly url?: string }
}

/** Every package that the page's code imports, and every one that these need in turn, by name. */
export async function builtInPackages(): Promise<BuiltIn[]> {
  const lock = JSON.parse(await readFile(join(ROOT, 'package-lock.json'), 'utf8')) as {
    packages: Record<string, { dependencies?: Record<string, string> }>
  }
  const waiting = [...(await imported()), BY_ITS_FILES]
  const names = new Set<string>()
  for (let name = waiting.pop(); name !== undefined; name = waiting.pop()) {
    if (names.has(name) || name.startsWith('@types/')) continue
    names.add(name)
    waiting.push(...Object.keys(lock.packages[`node_modules/${name}`]?.dependencies ?? {}))
  }
  return Promise.all([...names].sort().map(packageNamed))
}

/** The package that a module is imported from, or null for the project's own, Node's and made ones. */
export function packageOf(module: string): string | null {
  const [first, second] = module.split('/')
  if (!first || /^[./]|:/.test(first)) return null
  return first.startsWith('@') ? `${first}/${second}` : first
}

async function imported(): Promise<Set<string>> {
  const names = new Set<string>()
  for (const folder of ['geo', 'src'])
    for (const entry of await readdir(join(ROOT, folder), { recursive: true, withFileTypes: true })) {
      const path = join(entry.parentPath, entry.name)
      const within = relative(ROOT, path).replaceAll('\\', '/')
      if (!entry.isFile() || !/\.(tsx?|css)$/.test(entry.name) || NOT_OF_THE_PAGE.test(within)) continue
      for (const module of modulesIn(await readFile(path, 'utf8'))) {
        const name = packageOf(module)
        if (name) names.add(name)
      }
    }
  return names
}

/** What a file imports at run time (types are gone by then) or, in a style sheet, takes by its address. */
function modulesIn(code: string): string[] {
  const kept = code.replace(/^(import|export) type [^;]*? from '[^']+'$/gm, '')
  return [...kept.matchAll(/(?:\bfrom |\bimport |\bimport\(|\burl\()['"]([^'"]+)['"]/g)].map((match) => match[1]!)
}

async function packageNamed(name: string): Promise<BuiltIn> {
  const folder = join(ROOT, 'node_modules', name)
  const { version, license, homepage, repository } = JSON.parse(
    await readFile(join(folder, 'package.json'), 'utf8'),
  ) as Manifest
  const files = (await readdir(folder)).filter((file) => /^(licen[cs]e|copying|notice)/i.test(file)).sort()
  const texts = await Promise.all(files.map((file) => readFile(join(folder, file), 'utf8')))
  const url = typeof repository === 'string' ? repository : repository?.url
  return {
    name,
    version,
    licence: license ?? licenceOf(texts[0] ?? ''),
    home: addressOf(url ?? homepage ?? ''),
    text: texts.length > 0 ? texts.map((text) => text.replaceAll('\r', '').trim()).join('\n\n') : null,
  }
}

/** The licence of a package whose manifest does not say it, by the words that its text has (SPDX). */
function licenceOf(text: string): string {
  if (/^\s*(?:The )?MIT License/i.test(text)) return 'MIT'
  if (!/Redistribution and use in source and binary forms/.test(text)) return 'not said'
  return /Neither the name/.test(text) ? 'BSD-3-Clause' : 'BSD-2-Clause'
}

/** Where a repository is read, from any of the ways it may be written in a package. */
function addressOf(written: string): string {
  const [, place] = written.match(/^(?:[a-z+]+:\/\/)?(?:git@)?github(?:\.com[/:]|:)(.+?)(?:\.git)?$/) ?? []
  if (place) return `https://github.com/${place}`
  return /^[\w-]+\/[\w.-]+$/.test(written) ? `https://github.com/${written}` : written.replace(/^git\+/, '')
}
