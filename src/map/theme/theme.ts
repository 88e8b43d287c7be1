import type { Sheet } from '../farmMap.ts'
import type { Palette } from './palette.ts'

/** How the map is to look. Every theme has the same layers in the same order, so that one becomes another by paint alone. */
export interface MapTheme {
  readonly sheet: Sheet
  readonly palette: Palette
  /** A photo lies under the plan: grounds are left clear, and lines get a casing. */
  readonly overPhoto: boolean
  /** What is set out after this day is only planned, whatever day is shown. */
  readonly today: string
}

/** What a sheet brings forward. `held`: stretches by whether a support holds them. */
export interface Emphasis {
  readonly rows: 'plain' | 'faint' | 'off'
  readonly stretches: 'standing' | 'held' | 'off'
  readonly supports: 'strong' | 'plain' | 'faint'
  readonly canopies: 'plain' | 'faint'
  readonly surface: boolean
  readonly observations: boolean
  /** Beds that were dressed within a year. */
  readonly dressings: boolean
  /** Beds that nursery stock stands in. */
  readonly stock: boolean
}

export const EMPHASIS: Readonly<Record<Sheet, Emphasis>> = {
  ground: {
    rows: 'plain',
    stretches: 'off',
    supports: 'plain',
    canopies: 'plain',
    surface: false,
    observations: true,
    dressings: true,
    stock: false,
  },
  growing: {
    rows: 'faint',
    stretches: 'standing',
    supports: 'faint',
    canopies: 'plain',
    surface: false,
    observations: true,
    dressings: true,
    stock: false,
  },
  supports: {
    rows: 'faint',
    stretches: 'held',
    supports: 'strong',
    canopies: 'faint',
    surface: false,
    observations: true,
    dressings: false,
    stock: false,
  },
  picking: {
    rows: 'faint',
    stretches: 'standing',
    supports: 'faint',
    canopies: 'faint',
    surface: false,
    observations: false,
    dressings: false,
    stock: false,
  },
  yield: {
    rows: 'off',
    stretches: 'off',
    supports: 'faint',
    canopies: 'plain',
    surface: true,
    observations: false,
    dressings: false,
    stock: false,
  },
  siting: {
    rows: 'faint',
    stretches: 'held',
    supports: 'strong',
    canopies: 'plain',
    surface: true,
    observations: false,
    dressings: false,
    stock: false,
  },
  stock: {
    rows: 'faint',
    stretches: 'standing',
    supports: 'faint',
    canopies: 'faint',
    surface: false,
    observations: true,
    dressings: false,
    stock: true,
  },
}
