import { signal } from '@preact/signals'
import type { LineString } from 'geojson'
import type { Thing } from '../../map/farmMap.ts'
import type { HeldThing } from './placed.ts'

/** Something done with things that stand, told in figures and shown on the map before it is kept. */
export type Act =
  | { readonly do: 'alongside'; readonly things: readonly HeldThing[] }
  | { readonly do: 'offset'; readonly things: readonly HeldThing[] }
  | { readonly do: 'align'; readonly things: readonly HeldThing[] }
  | { readonly do: 'merge'; readonly things: readonly HeldThing[] }
  | { readonly do: 'split'; readonly things: readonly HeldThing[]; readonly cut: LineString }
  | { readonly do: 'remove'; readonly things: readonly Thing[] }

export const act = signal<Act | null>(null)
