import type { LonLat } from '../plane/lonLat.ts'
import type { Step } from '../store/step.ts'
import { frame, readFrames, unframed } from './frames.ts'
import { joined, type Shelf } from './shelf.ts'

/** What is put into the log: where the farm's plane touches the earth, once it does, and every step. */
export type LogEntry = { readonly plane: LonLat } | { readonly step: Step }

/** What could be read of the log. */
export interface ReadLog {
  readonly plane: LonLat | null
  /** In the order in which they were taken, each once. */
  readonly steps: readonly Step[]
  /** The last step before the first segment that was read; null at the log's beginning. */
  readonly after: string | null
  /** Records that did not agree with their checksum. */
  readonly spoilt: number
}

/**
 * The farm's own history beside its database: every step, written to the disk before it is confirmed. It lies in
 * numbered segments, each of which begins by naming the step before it; one whose end is torn is left as it is and the
 * next begins. Segments are never removed, so that the log alone can make the farm anew.
 */
export interface StepLog {
  /** Resolves when the entries are on the disk. */
  append(entries: readonly LogEntry[]): Promise<void>
  /** Lets the next entry begin a new segment, so that opening has less to read. */
  turn(): void
  /** Numbers of the segments, the oldest first. */
  segments(): Promise<readonly number[]>
  /** Reads the segments from `first` on. */
  read(first: number): Promise<ReadLog>
}

type Entry = LogEntry | { readonly after: string | null }

/** Opens the log in a folder of the shelf, for one writer. */
export async function openLog(shelf: Shelf, folder: string): Promise<StepLog> {
  const last = (await segmentsOf(shelf, folder)).at(-1)
  let current = last ?? 1
  let fresh = last === undefined
  let lastStep: string | null = null
  if (last !== undefined) {
    const { entries, torn } = await readSegment(shelf, folder, last)
    for (const entry of entries) lastStep = stepNamed(entry) ?? lastStep
    if (torn) turn()
  }

  function turn(): void {
    if (!fresh) current++
    fresh = true
  }

  return {
    async append(entries) {
      if (entries.length === 0) return
      const written: Entry[] = fresh ? [{ after: lastStep }, ...entries] : [...entries]
      fresh = false
      try {
        await shelf.append(nameOf(folder, current), joined(written.map(frame)))
      } catch (error) {
        turn()
        throw error
      }
      for (const entry of entries) lastStep = stepNamed(entry) ?? lastStep
    },
    turn,
    segments: () => segmentsOf(shelf, folder),
    read: (first) => readLog(shelf, folder, first),
  }
}

async function readLog(shelf: Shelf, folder: string, first: number): Promise<ReadLog> {
  const steps = new Map<string, Step>()
  let after: string | null | undefined
  let plane: LonLat | null = null
  let spoilt = 0
  for (const segment of await segmentsOf(shelf, folder)) {
    if (segment < first) continue
    const read = await readSegment(shelf, folder, segment)
    spoilt += read.spoilt
    for (const entry of read.entries)
      if ('after' in entry) after = after === undefined ? entry.after : after
      else if ('plane' in entry) plane = entry.plane
      else if (!steps.has(entry.step.id)) steps.set(entry.step.id, entry.step)
  }
  return { plane, steps: [...steps.values()], after: after ?? null, spoilt }
}

async function readSegment(shelf: Shelf, folder: string, segment: number) {
  const bytes = await shelf.read(nameOf(folder, segment))
  const { sound, spoilt, torn } = readFrames(bytes ?? new Uint8Array())
  return { entries: sound.map(unframed) as Entry[], spoilt, torn }
}

function stepNamed(entry: Entry): string | null {
  if ('step' in entry) return entry.step.id
  return 'after' in entry ? entry.after : null
}

const SEGMENT = /\/steps-(\d{6,})$/

function nameOf(folder: string, segment: number): string {
  return `${folder}/steps-${String(segment).padStart(6, '0')}`
}

async function segmentsOf(shelf: Shelf, folder: string): Promise<number[]> {
  const names = await shelf.list(`${folder}/`)
  const numbers = names.flatMap((name) => SEGMENT.exec(name)?.[1] ?? [])
  return numbers.map(Number).sort((a, b) => a - b)
}
