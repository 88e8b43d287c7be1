/** What an A4 page lying on its side leaves within 10 mm margins, in CSS pixels of 1/96 inch. */
const ROOM_PX = { width: (277 / 25.4) * 96, height: (188 / 25.4) * 96 }

/**
 * Keeps the size that the map pane has on the screen for the stylesheet of the print, which shrinks or grows map, legend
 * and title block together: so the scale bar stays true. Returns what ends it.
 */
export function keepPrintSize(pane: HTMLElement): () => void {
  const keep = () => {
    if (matchMedia('print').matches || pane.clientWidth === 0) return
    const { clientWidth: width, clientHeight: height } = pane
    const { style } = document.documentElement
    style.setProperty('--print-width', `${width}px`)
    style.setProperty('--print-height', `${height}px`)
    style.setProperty('--print-zoom', String(Math.min(ROOM_PX.width / width, ROOM_PX.height / height)))
  }
  const watch = new ResizeObserver(keep)
  watch.observe(pane)
  return () => watch.disconnect()
}
