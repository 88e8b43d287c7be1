import { demoTemplate } from 'virtual:selion-demo'
import { assets as engineAssets } from 'virtual:selion-engine'
import type { PGliteOptions } from '@electric-sql/pglite'
import type { EngineParts } from '../../../geo/store/template/engineOptions.ts'
import type { Progress } from '../door.ts'
import { Refusal } from '../refusal.ts'
import type { Start } from './engines.ts'

/** What the engine is opened with: its parts, and what it would fetch by itself otherwise. */
export interface FetchedEngine {
  readonly parts: EngineParts
  readonly options: Pick<PGliteOptions, 'pgliteWasmModule' | 'fsBundle' | 'initdbWasmModule'>
}

/** Fetches what the engine is opened with; with a template where a new database is to be made. */
export type EngineFetch = (start: Start) => Promise<FetchedEngine>

const assets = { ...engineAssets, demoTemplate }
/** What a new database starts from. */
const TEMPLATES: Readonly<Record<Start, AssetName | null>> = { there: null, new: 'template', demo: 'demoTemplate' }

/** A WebAssembly module that holds nothing: initdb never runs, and would be fetched otherwise. */
const EMPTY_MODULE = Uint8Array.of(0, 0x61, 0x73, 0x6d, 1, 0, 0, 0)

/** Fetches the engine when it is first needed, compiling it while it comes, and keeps it for the next opening. */
export function engineFetch(tell: (progress: Progress) => void): EngineFetch {
  const kept: { engine?: Promise<FetchedEngine> } = {}
  const come = new Map<AssetName, number>()
  let needed: readonly AssetName[] = ALWAYS
  const count: Count = (name, bytes) => {
    come.set(name, (come.get(name) ?? 0) + bytes)
    const of = needed.reduce((sum, each) => sum + assets[each].bytes, 0)
    const done = needed.reduce((sum, each) => sum + Math.min(come.get(each) ?? 0, assets[each].bytes), 0)
    tell({ doing: 'Fetching the database', done, of })
  }
  return async (start) => {
    const from = TEMPLATES[start]
    needed = from ? [...ALWAYS, from] : ALWAYS
    kept.engine ??= fetchEngine(count).catch((error: unknown) => {
      delete kept.engine
      come.clear()
      throw error
    })
    const [engine, template] = await Promise.all([kept.engine, from ? blobOf(from, count) : undefined])
    if (from) come.delete(from)
    tell({ doing: 'Starting the database', done: 1, of: 1 })
    return template ? { ...engine, parts: { ...engine.parts, template } } : engine
  }
}

type AssetName = keyof typeof assets
const ALWAYS: readonly AssetName[] = ['postgis', 'projDb', 'pgliteWasm', 'pgliteData']

async function fetchEngine(count: Count): Promise<FetchedEngine> {
  const [postgis, projDb, pgliteWasmModule, fsBundle] = await Promise.all([
    moduleOf('postgis', count),
    bytesOf('projDb', count),
    moduleOf('pgliteWasm', count),
    blobOf('pgliteData', count),
  ])
  const initdbWasmModule = await WebAssembly.compile(EMPTY_MODULE)
  return { parts: { postgis, projDb }, options: { pgliteWasmModule, fsBundle, initdbWasmModule } }
}

type Count = (name: AssetName, bytes: number) => void

const moduleOf = async (name: AssetName, count: Count) => WebAssembly.compileStreaming(await counted(name, count))
const blobOf = async (name: AssetName, count: Count) => (await counted(name, count)).blob()
const bytesOf = async (name: AssetName, count: Count) =>
  new Uint8Array(await (await counted(name, count)).arrayBuffer())

/** The response, whose bytes are counted beside it: only what fetch itself gave is compiled from the browser's code cache. */
async function counted(name: AssetName, count: Count): Promise<Response> {
  const response = await fetchHere(assets[name].url)
  const counting = new WritableStream<Uint8Array>({ write: (chunk) => count(name, chunk.length) })
  // What breaks off the counting breaks off the reading too, which tells it.
  response
    .clone()
    .body!.pipeTo(counting)
    .catch(() => undefined)
  return response
}

/** A file of the page's own; refuses in words where it is not to be had. */
export async function fetchHere(url: string, signal?: AbortSignal): Promise<Response> {
  const what = 'A part of this page could not be fetched. Look whether you are connected, and try again'
  let response: Response
  try {
    response = await fetch(url, signal ? { signal } : {})
  } catch (error) {
    if (signal?.aborted) throw error
    throw new Refusal('storage', `${what} (${(error as Error).message}).`)
  }
  if (!response.ok || !response.body) throw new Refusal('storage', `${what} (${response.status}).`)
  return response
}
