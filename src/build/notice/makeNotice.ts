import { readFile } from 'node:fs/promises'
import { DATABASE_PARTS, type EnginePart, LOOKED_AT, POSTGIS_PARTS } from './engineParts.ts'
import { type BuiltIn, builtInPackages } from './packages.ts'

const LINE = '='.repeat(78)
const THIN = '-'.repeat(78)

/**
 * The notice that is served with the page: what is built in, under which licences, where its sources are had, and the
 * licences' texts. Throws where the engine's packages are other than those whose parts were written down.
 */
export async function makeNotice(): Promise<string> {
  const packages = await builtInPackages()
  for (const [name, version] of Object.entries(LOOKED_AT)) {
    const found = packages.find((one) => one.name === name)?.version
    if (found !== version)
      throw new Error(`${name} is ${found}: see what it is linked from, and say so in engineParts.ts`)
  }
  const licence = await readFile(new URL('../../../LICENSE', import.meta.url), 'utf8')
  const parts = [...POSTGIS_PARTS, ...DATABASE_PARTS]
  const names = [...new Set(parts.flatMap((part) => part.texts))].sort()
  const texts = await Promise.all(names.map(async (name) => [name, await textNamed(name)] as const))
  return `${[
    ABOUT,
    headed('Selion', licence.trim()),
    headed('In the library of PostGIS (a WebAssembly module)', POSTGIS_PARTS.map(partLines).join('\n\n')),
    headed(
      'In the database PGlite (a WebAssembly module); the last four are in PostGIS too',
      DATABASE_PARTS.map(partLines).join('\n\n'),
    ),
    headed('Packages in the page', packages.map(packageLine).join('\n')),
    ...texts.map(([name, text]) => headed(`Licence: ${name}`, text)),
    headed('Licences of the packages', licencesOf(packages)),
  ].join('\n\n')}\n`
}

const ABOUT = `NOTICE

What is served as Selion holds the work of many others. This lists them, the
licences they are under, and where their sources are had.

Selion's own source is under the MIT licence. The page as it is built and
served contains the library of PostGIS, which is under the GNU General Public
License, version 2 or (at your option) any later version, and GEOS, which is
under the GNU Lesser General Public License, version 2.1 or later. Whoever
passes the built page on does so under the terms of these.

Sources. The complete source of the library of PostGIS is: PostGIS and every
library that it is linked from, at the versions and places named below; the
scripts that compile and link them,
  https://github.com/electric-sql/postgres-pglite
  https://github.com/electric-sql/pglite (tag @electric-sql/pglite-postgis@${LOOKED_AT['@electric-sql/pglite-postgis']})
and what Selion does with the result (it takes the library out of its bundle
and does not change it), in Selion's own source. If you can't get any of it at
these places, ask whoever serves this page to you: for as long as they serve
it, and for at least three years from when you got it, they owe you a complete
machine-readable copy of the corresponding source, for no more than the cost of
passing it on (sections 3 of the GNU GPL 2 and 6 of the GNU LGPL 2.1).

There is no warranty for any of it, to the extent permitted by law.`

function headed(title: string, body: string): string {
  return `${LINE}\n${title}\n${LINE}\n\n${body}`
}

function partLines({ name, version, licence, copyright, source, note }: EnginePart): string {
  const lines = [`${name} ${version}`, `  Licence: ${licence}`, `  ${copyright}`, `  Source: ${source}`]
  return [...lines, ...(note ? [`  ${note}`] : [])].join('\n')
}

function packageLine({ name, version, licence, home }: BuiltIn): string {
  return `${name} ${version}: ${licence}${home ? `, ${home}` : ''}`
}

/** Each text once, under the packages that come with it; those that come with none are named last. */
function licencesOf(packages: readonly BuiltIn[]): string {
  const texts = new Set(packages.flatMap(({ text }) => text ?? []))
  const without = packages.filter(({ text }) => text === null).map(packageLine)
  const named = (of: readonly BuiltIn[]) => of.map(({ name, version }) => `${name} ${version}`).join('\n')
  return [
    ...[...texts].map((text) => `${named(packages.filter((one) => one.text === text))}\n\n${text}`),
    ...(without.length > 0
      ? [`Without a text of their own; those of their licences stand above:\n\n${without.join('\n')}`]
      : []),
  ].join(`\n\n${THIN}\n\n`)
}

async function textNamed(name: string): Promise<string> {
  return (await readFile(new URL(`./texts/${name}.txt`, import.meta.url), 'utf8')).trim()
}
