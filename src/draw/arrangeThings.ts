import { arrowStep, moveCrosshair, zoomByKey } from './crosshair.ts'
import type { Hearer } from './hand.ts'
import { NO_MEASURES } from './noMeasures.ts'
import type { Pixel } from './overlay.ts'
import type { SessionWork } from './session.ts'
import type { Segment } from './snap.ts'
import type { Table } from './table.ts'

/** How near a tap must come to an edge to mean it. */
const ON_EDGE_PX = { mouse: 10, touch: 26 } as const

/** Waits for edges to be tapped; what would come of it is shown by `preview`. By keys: the arrows move a crosshair, Enter is a tap. */
export function arrangeThings(table: Table): SessionWork & { readonly hearer: Hearer; show(): void } {
  const { ground, callbacks, map } = table
  let crosshair: Pixel | null = null
  let under: Segment | null = null
  let chosen: Segment | null = null

  const show = () => {
    const line = (edge: Segment | null) => (edge ? [edge.map(ground.toPixel)] : [])
    table.overlay.draw({
      area: [],
      drawn: line(chosen),
      coming: line(under),
      faulty: false,
      marks: [],
      words: [],
      crosshair,
    })
    callbacks.onMeasure(NO_MEASURES)
  }
  const tap = (at: Pixel, touch: boolean) => {
    const edge = callbacks.onEdge && ground.edgeAt(at, ON_EDGE_PX[touch ? 'touch' : 'mouse'])
    if (edge) {
      chosen = edge
      callbacks.onEdge?.(edge)
    }
    show()
  }
  return {
    show,
    type: () => undefined,
    putCorner: () => undefined,
    dropCorner: () => undefined,
    takeBack: () => undefined,
    clear() {
      chosen = null
      show()
    },
    finish: () => null,
    hearer: {
      grab: () => false,
      drag: () => undefined,
      drop: () => undefined,
      tap: (at, { touch }) => tap(at, touch),
      hover(at) {
        under = at && callbacks.onEdge ? ground.edgeAt(at, ON_EDGE_PX.mouse) : null
        show()
      },
      key(event) {
        if (zoomByKey(map, event)) return true
        const middle: Pixel = [map.getCanvas().clientWidth / 2, map.getCanvas().clientHeight / 2]
        const step = arrowStep(event)
        if (step) crosshair = moveCrosshair(map, crosshair ?? middle, step)
        else if (event.key !== 'Enter') return false
        else if (crosshair) tap(crosshair, false)
        else crosshair = middle
        show()
        return true
      },
    },
  }
}
