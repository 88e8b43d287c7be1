import { existsSync } from 'node:fs'
import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Database } from '../database.ts'
import { openEmbedded } from '../embedded.ts'
import { engineFiles } from './engineFiles.ts'
import { engineOptions } from './engineOptions.ts'

/**
 * Opens the embedded engine in Node: a new database with all migrations, in memory, or in the folder `dataDir`, where
 * one that is there already is opened as it is (the caller then runs `migrate`).
 */
export async function openNodeDatabase({ dataDir }: { dataDir?: string } = {}): Promise<Database> {
  const files = await engineFiles()
  const isNew = dataDir === undefined || !existsSync(join(dataDir, 'PG_VERSION'))
  const [postgis, projDb] = await Promise.all([readFile(files.postgis), readFile(files.projDb)])
  const parts = isNew ? { postgis, projDb, template: new Blob([await readFile(files.template)]) } : { postgis, projDb }
  return openEmbedded({ ...engineOptions(parts), ...(dataDir !== undefined && { dataDir }) })
}
