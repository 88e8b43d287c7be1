import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'

const LISTED = /\{filename:"([^"]+)",start:([\d.e]+),end:([\d.e]+)\}/g

/** What is needed of a database in UTF-8 that is there already; the rest serves initdb, other encodings, text search. */
const NEEDED = [/\/plpgsql[^/]*$/, /\/(bin|icu|timezone|timezonesets)\//, /^\/home\//, /^\/pglite\/[^/]+$/]

/**
 * The files that the engine is installed with, all in one, with those blank that no page needs. The length stays, since
 * the engine looks at it; packed it is a fifth. Node only.
 */
export async function trimData(): Promise<Uint8Array> {
  const folder = createRequire(import.meta.url)
    .resolve('@electric-sql/pglite')
    .replace(/[^/\\]*$/, '')
  const data = new Uint8Array(await readFile(`${folder}pglite.data`))
  const files = [...(await readFile(`${folder}index.js`, 'utf8')).matchAll(LISTED)]
  if (files.at(-1)?.[3] === undefined || Number(files.at(-1)![3]) !== data.length)
    throw new Error(`the engine lists ${files.length} files, which do not end where its data do`)
  for (const [, name, start, end] of files)
    if (!NEEDED.some((pattern) => pattern.test(name!))) data.fill(0, Number(start), Number(end))
  return data
}
