import type { Thing } from '../map/farmMap.ts'
import { arrowStep, moveCrosshair, zoomByKey } from './crosshair.ts'
import { type Hearer, withMore } from './hand.ts'
import { NO_MEASURES } from './noMeasures.ts'
import type { Pixel } from './overlay.ts'
import type { SessionWork } from './session.ts'
import type { Table } from './table.ts'

/** What the map tells of things under a place or in a box on the screen. */
export interface Seen {
  thingAt(at: Pixel, touch: boolean): Thing | null
  thingsIn(from: Pixel, to: Pixel): readonly Thing[]
}

/**
 * Taking several things together: a tap takes one in or leaves it out again, a dragged box takes in all that lies
 * wholly within it (a finger draws boxes only where that was asked for, and moves the map else). By keys: the arrows
 * move a crosshair, Enter is a tap, Shift with Enter begins and ends a box.
 */
export function selectThings(table: Table, seen: Seen): SessionWork & { readonly hearer: Hearer; show(): void } {
  const { callbacks, map } = table
  let box: readonly [Pixel, Pixel] | null = null
  let crosshair: Pixel | null = null
  let begun: Pixel | null = null

  const show = () => {
    table.overlay.draw({
      area: [],
      drawn: [],
      coming: [],
      faulty: false,
      marks: [],
      words: [],
      box: begun && crosshair ? [begun, crosshair] : box,
      crosshair,
    })
    callbacks.onMeasure(NO_MEASURES)
  }
  const takeBox = (from: Pixel, to: Pixel) => callbacks.onSelect?.(seen.thingsIn(from, to), 'add')
  const tap = (at: Pixel, touch: boolean) => {
    const thing = seen.thingAt(at, touch)
    if (thing) callbacks.onSelect?.([thing], 'toggle')
    show()
  }
  return {
    show,
    type: () => undefined,
    putCorner: () => undefined,
    dropCorner: () => undefined,
    takeBack: () => undefined,
    clear: () => undefined,
    finish: () => null,
    hearer: {
      grab(at, { touch }) {
        if (touch && !callbacks.boxes?.()) return false
        box = [at, at]
        return true
      },
      drag(at) {
        if (box) box = [box[0], at]
        show()
      },
      drop() {
        const drawn = box
        box = null
        if (drawn && (drawn[0][0] !== drawn[1][0] || drawn[0][1] !== drawn[1][1])) takeBox(...drawn)
        show()
      },
      tap(at, { touch }) {
        box = null
        tap(at, touch)
      },
      hover: () => undefined,
      key(event) {
        if (zoomByKey(map, event)) return true
        const middle: Pixel = [map.getCanvas().clientWidth / 2, map.getCanvas().clientHeight / 2]
        const arrow = event.key.startsWith('Arrow') ? arrowStep(event) : null
        if (arrow) crosshair = moveCrosshair(map, crosshair ?? middle, arrow)
        else if (event.key !== 'Enter') return false
        else if (!crosshair) crosshair = middle
        else if (!withMore(event)) tap(crosshair, false)
        else if (begun) {
          takeBox(begun, crosshair)
          begun = null
        } else begun = crosshair
        show()
        return true
      },
    },
  }
}
