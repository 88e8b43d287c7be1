import { demoTemplate } from 'virtual:selion-demo'
import { assets as engineAssets } from 'virtual:selion-engine'
import type { PGliteOptions } from '@electric-sql/pglite'
import type { EngineParts } from '../../../geo/store/template/engineOptions.ts'
import type { Progress } from '../door.ts'
import { Refusal } from '../refusal.ts'
import { bytesAsBlob } from './bytesAsBlob.ts'
import type { Start } from './engines.ts'

/** What the engine is opened with: its parts, and what it would fetch by itself otherwise. */
export interface FetchedEngine {
  readonly parts: EngineParts
  readonly options: Pick<PGliteOptions, 'pgliteWasmModule' | 'fsBundle' | 'initdbWasmModule'>
}

/** What a new database starts from. */
export type New = Exclude<Start, 'there'>

/** Fetches what databases are opened with. */
export interface EngineFetch {
  /** The engine, fetched when it is first needed, compiled while it comes, and kept for the next opening. */
  engine(): Promise<FetchedEngine>
  /** Begins to fetch a template that will be wanted. */
  expect(start: New): void
  /** A template, a tar archive: the data directory that a new database starts from. It is not kept. */
  template(start: New): Promise<Uint8Array>
}

const assets = { ...engineAssets, demoTemplate }
const TEMPLATES: Readonly<Record<New, AssetName>> = { new: 'template', demo: 'demoTemplate' }

/** A WebAssembly module that holds nothing: initdb never runs, and would be fetched otherwise. */
const EMPTY_MODULE = Uint8Array.of(0, 0x61, 0x73, 0x6d, 1, 0, 0, 0)

/** `isSlow`: bytes are counted as they come, which is work that a quick network does not need. */
export function engineFetch(tell: (progress: Progress) => void, isSlow: boolean): EngineFetch {
  const kept: { engine?: Promise<FetchedEngine> } = {}
  const coming = new Map<New, Promise<Uint8Array>>()
  const come = new Map<AssetName, number>()
  const needed = new Set<AssetName>(ALWAYS)
  const count: Count = (name, bytes) => {
    come.set(name, Math.min((come.get(name) ?? 0) + bytes, assets[name].bytes))
    const names = [...needed]
    const of = names.reduce((sum, each) => sum + assets[each].bytes, 0)
    const done = names.reduce((sum, each) => sum + (come.get(each) ?? 0), 0)
    tell(done < of ? { doing: 'Fetching the database', done, of } : { doing: 'Starting the database', done: 1, of: 1 })
  }
  const fetching = { count, isSlow }

  function begin(start: New): Promise<Uint8Array> {
    const name = TEMPLATES[start]
    // It stays among what is counted when it has come, so that the bar never goes back.
    for (const each of Object.values(TEMPLATES)) needed.delete(each)
    needed.add(name)
    come.delete(name)
    const bytes = bytesOf(name, fetching)
    coming.set(start, bytes)
    // Told to whoever takes it.
    bytes.catch(() => undefined)
    return bytes
  }

  return {
    engine() {
      kept.engine ??= fetchEngine(fetching).catch((error: unknown) => {
        delete kept.engine
        come.clear()
        throw error
      })
      return kept.engine
    },
    expect(start) {
      if (!coming.has(start)) begin(start)
    },
    template(start) {
      const bytes = coming.get(start) ?? begin(start)
      coming.delete(start)
      return bytes
    },
  }
}

type AssetName = keyof typeof assets
const ALWAYS: readonly AssetName[] = ['postgis', 'projDb', 'pgliteWasm', 'pgliteData']

async function fetchEngine(fetching: Fetching): Promise<FetchedEngine> {
  const [postgis, projDb, pgliteWasmModule, data] = await Promise.all([
    moduleOf('postgis', fetching),
    bytesOf('projDb', fetching),
    moduleOf('pgliteWasm', fetching),
    bytesOf('pgliteData', fetching),
  ])
  const initdbWasmModule = await WebAssembly.compile(EMPTY_MODULE)
  return { parts: { postgis, projDb }, options: { pgliteWasmModule, fsBundle: bytesAsBlob(data), initdbWasmModule } }
}

type Count = (name: AssetName, bytes: number) => void

interface Fetching {
  readonly count: Count
  readonly isSlow: boolean
}

async function moduleOf(name: AssetName, fetching: Fetching): Promise<WebAssembly.Module> {
  const module = await WebAssembly.compileStreaming(await counted(name, fetching))
  fetching.count(name, assets[name].bytes)
  return module
}

async function bytesOf(name: AssetName, fetching: Fetching): Promise<Uint8Array> {
  const bytes = new Uint8Array(await (await counted(name, fetching)).arrayBuffer())
  fetching.count(name, assets[name].bytes)
  return bytes
}

/**
 * The response; on a slow network its bytes are counted beside it: only what fetch itself gave is compiled from the
 * browser's code cache.
 */
async function counted(name: AssetName, { count, isSlow }: Fetching): Promise<Response> {
  const response = await fetchHere(assets[name].url)
  if (!isSlow) return response
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
