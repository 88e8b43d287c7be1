import { effect } from '@preact/signals'
import { photos } from '../state/photos.ts'
import { layers, shownOn } from '../state/shown.ts'
import { on, sheet } from '../state/where.ts'
import { surface, zones } from '../yield/onMap.ts'

/** Calls `changing` when what the sheet shows changes, on the map or in its table, and `changed` once it has been still for a moment. Returns what ends it. */
export function followSheet(changing: () => void, changed: () => void): () => void {
  let waiting: ReturnType<typeof setTimeout> | undefined
  const soon = () => {
    changing()
    clearTimeout(waiting)
    waiting = setTimeout(changed, 150)
  }
  const watch = new MutationObserver(soon)
  for (const pane of document.querySelectorAll('.table-pane, .map-pane'))
    watch.observe(pane, { childList: true, subtree: true, characterData: true })
  const stop = effect(() => {
    void [sheet.value, on.value, shownOn.value, layers.value, photos.value, surface.value, zones.value]
    soon()
  })
  return () => {
    stop()
    watch.disconnect()
    clearTimeout(waiting)
  }
}

/** Whether the sheet is still being asked for, so that what it shows is not yet what it says. */
export function sheetIsBusy(): boolean {
  return (
    shownOn.value !== on.value ||
    document.querySelector('.table-pane [aria-busy="true"], .table-pane progress') !== null
  )
}
