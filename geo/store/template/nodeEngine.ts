import { existsSync } from 'node:fs'
import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import type { PGliteOptions } from '@electric-sql/pglite'
import type { Database } from '../database.ts'
import { openEmbedded } from '../embedded.ts'
import { engineFiles } from './engineFiles.ts'
import { type EngineParts, engineOptions, type WasmModule } from './engineOptions.ts'

/** What every database of a process is opened with, compiled and read once. */
interface NodeEngine {
  readonly parts: Omit<EngineParts, 'template'>
  readonly template: Blob
  readonly options: Pick<PGliteOptions, 'pgliteWasmModule' | 'initdbWasmModule'>
}

const kept: { engine?: Promise<NodeEngine> } = {}

/**
 * Opens the embedded engine in Node: a new database with all migrations, in memory, or in the folder `dataDir`, where
 * one that is there already is opened as it is (the caller then runs `migrate`).
 */
export async function openNodeDatabase({ dataDir }: { dataDir?: string } = {}): Promise<Database> {
  kept.engine ??= loadEngine()
  const { parts, template, options } = await kept.engine
  const isNew = dataDir === undefined || !existsSync(join(dataDir, 'PG_VERSION'))
  return openEmbedded({
    ...engineOptions(isNew ? { ...parts, template } : parts),
    ...options,
    ...(dataDir !== undefined && { dataDir }),
  })
}

async function loadEngine(): Promise<NodeEngine> {
  const files = await engineFiles()
  const pglite = createRequire(import.meta.url).resolve('@electric-sql/pglite')
  const [postgis, projDb, template, pgliteWasmModule, initdbWasmModule] = await Promise.all([
    compiled(files.postgis),
    readFile(files.projDb),
    readFile(files.template),
    compiled(join(pglite, '../pglite.wasm')),
    compiled(join(pglite, '../initdb.wasm')),
  ])
  return { parts: { postgis, projDb }, template: new Blob([template]), options: { pgliteWasmModule, initdbWasmModule } }
}

/** `geo` is compiled without the DOM's types, among which TypeScript counts WebAssembly. */
const { WebAssembly: wasm } = globalThis as unknown as {
  WebAssembly: { compile(bytes: Uint8Array): Promise<WasmModule> }
}

async function compiled(path: string): Promise<WasmModule> {
  return wasm.compile(await readFile(path))
}
