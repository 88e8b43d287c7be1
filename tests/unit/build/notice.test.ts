import { readFile } from 'node:fs/promises'
import { expect, it } from 'vitest'
import { packagesNotNamed } from '../../../src/build/holdNotice.ts'
import { makeNotice } from '../../../src/build/notice/makeNotice.ts'
import { builtInPackages, packageOf } from '../../../src/build/notice/packages.ts'

const kept = () => readFile(new URL('../../../src/NOTICE.txt', import.meta.url), 'utf8')

it('is what the lock file and the packages say now (npm run notice)', async () => {
  expect(await kept()).toBe(await makeNotice())
})

it('names what the page imports and what that needs in turn, and nothing of the tools', async () => {
  const names = (await builtInPackages()).map(({ name }) => name)
  expect(names).toEqual(expect.arrayContaining(['@electric-sql/pglite', 'maplibre-gl', 'preact', 'geotiff', 'pako']))
  for (const tool of ['vite', 'tsx', 'pg', 'vitest', 'typescript']) expect(names).not.toContain(tool)
})

it('says under which licence every package is', async () => {
  const notice = await kept()
  for (const { name, version, licence } of await builtInPackages()) {
    expect(licence, name).not.toBe('not said')
    expect(notice).toContain(`\n${name} ${version}: ${licence}`)
  }
})

// GNU GPL 2, section 1 and 3, and LGPL 2.1, sections 1 and 6: the licences go with the copy, and source is offered.
it('gives the GNU licences whole, and says where the sources are had', async () => {
  const notice = await kept()
  expect(notice).toContain('GNU GENERAL PUBLIC LICENSE\n                       Version 2, June 1991')
  expect(notice).toContain('GNU LESSER GENERAL PUBLIC LICENSE\n                       Version 2.1, February 1999')
  expect(notice.match(/END OF TERMS AND CONDITIONS/g)!.length).toBeGreaterThanOrEqual(3)
  for (const source of [
    'postgis-3.6.2.tar.gz',
    'geos-3.14.0.tar.bz2',
    'proj-9.7.0.tar.gz',
    'electric-sql/postgres-pglite',
  ])
    expect(notice).toContain(source)
})

it.each([
  ['preact/hooks', 'preact'],
  ['@preact/signals', '@preact/signals'],
  ['maplibre-gl/dist/maplibre-gl-worker.mjs?url', 'maplibre-gl'],
  ['./own.ts', null],
  ['../own.ts', null],
  ['node:fs', null],
  ['virtual:selion-engine', null],
])('takes %s for a module of %s', (module, name) => {
  expect(packageOf(module)).toBe(name)
})

it('misses a package that is built in and not named, by its modules and its files', async () => {
  const modules = [
    '/farm/node_modules/preact/dist/preact.mjs',
    '/farm/node_modules/.cache/selion/demo.zip',
    '/farm/a.ts',
  ]
  expect(packagesNotNamed(await kept(), modules)).toEqual([])
  const others = ['/farm/node_modules/pre/index.js', '/farm/node_modules/preact/node_modules/@one/two/three.wasm']
  expect(packagesNotNamed(await kept(), [...modules, ...others])).toEqual(['pre', '@one/two'])
})
