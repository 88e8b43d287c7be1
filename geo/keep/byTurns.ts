import { frame, readFrames, unframed } from './frames.ts'
import type { Shelf } from './shelf.ts'

interface Turn {
  readonly turn: number
  readonly value: unknown
}

const SLOTS = ['a', 'b'] as const

/** The newest sound value written by turns under a name, or null. */
export async function readByTurns(shelf: Shelf, name: string): Promise<unknown> {
  return (await newest(shelf, name))?.value ?? null
}

/** Writes a small value so that an end at any moment leaves either the old one or the new one: two files, by turns. */
export async function writeByTurns(shelf: Shelf, name: string, value: unknown): Promise<void> {
  const turn = ((await newest(shelf, name))?.turn ?? 0) + 1
  await shelf.write(`${name}.${SLOTS[turn % 2]}`, frame({ turn, value } satisfies Turn))
}

async function newest(shelf: Shelf, name: string): Promise<Turn | null> {
  let best: Turn | null = null
  for (const slot of SLOTS) {
    const bytes = await shelf.read(`${name}.${slot}`)
    const [first] = readFrames(bytes ?? new Uint8Array()).sound
    const turn = first && (unframed(first) as Turn)
    if (turn && turn.turn > (best?.turn ?? 0)) best = turn
  }
  return best
}
