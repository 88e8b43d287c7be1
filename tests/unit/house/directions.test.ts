import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join, relative, resolve } from 'node:path'
import { expect, it } from 'vitest'

const ROOT = resolve(import.meta.dirname, '../../..')

/** Every module of a folder and the local modules that it imports, as paths from the root. */
function importsIn(folder: string): Map<string, string[]> {
  const found = new Map<string, string[]>()
  for (const entry of readdirSync(join(ROOT, folder), { recursive: true, withFileTypes: true })) {
    if (!entry.isFile() || !/\.tsx?$/.test(entry.name) || entry.name.endsWith('.d.ts')) continue
    const path = join(entry.parentPath, entry.name)
    const text = readFileSync(path, 'utf8')
    const names = [...text.matchAll(/(?:from|import)\s*\(?\s*'(\.[^']+)'/g)].map((m) => m[1]!.replace(/\?.*$/, ''))
    found.set(
      relative(ROOT, path),
      names.filter((name) => /\.tsx?$/.test(name)).map((name) => relative(ROOT, resolve(dirname(path), name))),
    )
  }
  return found
}

const ALL = new Map([...importsIn('geo'), ...importsIn('src')])

/** Which rooms a room may import from, besides itself; `null` is anything in the project but fixtures and tests. */
const MAY: Readonly<Record<string, readonly string[] | null>> = {
  'geo/model': [],
  'geo/plane': ['geo/model'],
  'geo/layout': ['geo/model', 'geo/plane'],
  'geo/track': ['geo/model', 'geo/plane'],
  'geo/store': ['geo/model', 'geo/plane'],
  'geo/measure': ['geo/model', 'geo/plane', 'geo/store'],
  'geo/yield': ['geo/model', 'geo/plane', 'geo/store', 'geo/measure', 'geo/sun'],
  'geo/sun': ['geo/model', 'geo/plane', 'geo/store', 'geo/measure'],
  'geo/supports': ['geo/model', 'geo/plane', 'geo/store', 'geo/measure', 'geo/yield'],
  'geo/picking': ['geo/model', 'geo/plane', 'geo/store'],
  'geo/photo': ['geo/model', 'geo/plane', 'geo/store'],
  'geo/catalogue': ['geo/model'],
  'geo/growing': ['geo/model', 'geo/plane', 'geo/store', 'geo/measure', 'geo/catalogue', 'geo/yield'],
  'geo/stock': ['geo/model'],
  'geo/siting': [
    'geo/model',
    'geo/plane',
    'geo/store',
    'geo/measure',
    'geo/sun',
    'geo/supports',
    'geo/catalogue',
    'geo/growing',
    'geo/stock',
    'geo/yield',
  ],
  'geo/rotation': ['geo/model', 'geo/plane', 'geo/store', 'geo/catalogue', 'geo/growing', 'geo/siting', 'geo/yield'],
  'geo/exchange': ['geo/model', 'geo/plane', 'geo/store', 'geo/stock'],
  'geo/notebook': ['geo/model', 'geo/exchange', 'geo/stock'],
  'geo/layers': ['geo/model', 'geo/plane', 'geo/store', 'geo/measure'],
  'geo/cards': ['geo/model', 'geo/plane', 'geo/store', 'geo/measure', 'geo/stock', 'geo/picking'],
  'geo/keep': ['geo/model', 'geo/plane', 'geo/store', 'geo/exchange'],
  'src/desk': ['geo'],
  'src/ui': [],
  'src/map': ['src/desk', 'geo/model', 'geo/plane', 'geo/layers'],
  'src/draw': ['src/desk', 'src/map', 'geo/model', 'geo/plane'],
  'src/print': ['src/map', 'geo/plane', 'geo/exchange'],
  'src/sheets': [
    'src/desk',
    'src/map',
    'src/draw',
    'src/print',
    'src/ui',
    'src/offline',
    'geo/model',
    'geo/plane',
    'geo/layers',
    'geo/yield',
    'geo/sun',
    'geo/supports',
    'geo/layout',
    'geo/track',
    'geo/notebook',
    'geo/catalogue',
    'geo/growing',
    'geo/photo',
    'geo/stock',
    'geo/siting',
  ],
  'src/cli': ['geo', 'fixtures'],
  'src/offline': [],
  'src/build': ['geo', 'fixtures', 'src/cli', 'src/offline', 'src/map'],
  'src/first.ts': ['src/main.tsx', 'src/desk'],
  'src/main.tsx': null,
}

const roomOf = (path: string) => path.split('/').slice(0, 2).join('/')

it('holds the directions in which rooms may import', () => {
  const wrong: string[] = []
  for (const [path, imports] of ALL) {
    const room = roomOf(path)
    const may = MAY[room]
    if (may === undefined) wrong.push(`${path} lies in a room that the house does not know`)
    if (!may) continue
    for (const other of imports) {
      const there = roomOf(other)
      if (there === room || may.includes(there) || may.includes(there.split('/')[0]!)) continue
      wrong.push(`${path} imports ${other}`)
    }
  }
  expect(wrong).toEqual([])
})

it('keeps values of the store out of the sheets, the map and drawing', () => {
  const wrong = [...ALL].filter(
    ([path, imports]) => /^src\/(map|draw|sheets|ui)\//.test(path) && imports.some((i) => i.startsWith('geo/store')),
  )
  expect(wrong.map(([path]) => path)).toEqual([])
})

it('has no circles', () => {
  const done = new Set<string>()
  const circles: string[] = []
  const walk = (path: string, trail: string[]) => {
    if (trail.includes(path)) {
      circles.push([...trail.slice(trail.indexOf(path)), path].join(' → '))
      return
    }
    if (done.has(path)) return
    for (const next of ALL.get(path) ?? []) walk(next, [...trail, path])
    done.add(path)
  }
  for (const path of ALL.keys()) walk(path, [])
  expect(circles).toEqual([])
})

it('has looked at the modules', () => expect(ALL.size).toBeGreaterThan(50))
