import { signal } from '@preact/signals'

/** Which of the three a phone shows; a desk shows them side by side. */
export type Pane = 'map' | 'table' | 'card'
export const pane = signal<Pane>('map')

export function showPane(name: Pane): void {
  pane.value = name
}
