import { signal } from '@preact/signals'

const query = matchMedia('(max-width: 900px)')

/** True on a phone's width and an upright tablet's, where the rail folds and one pane fills the screen. */
export const narrow = signal(query.matches)
query.addEventListener('change', () => {
  narrow.value = query.matches
})
