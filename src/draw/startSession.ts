import type { Geometry } from 'geojson'
import type { LonLat } from '../../geo/plane/lonLat.ts'
import type { FarmMap, Thing } from '../map/farmMap.ts'
import { drawNew } from './drawNew.ts'
import { editShape } from './editShape.ts'
import { groundOf } from './ground.ts'
import { listenToHand } from './hand.ts'
import { makeOverlay } from './overlay.ts'
import type { Session, SessionCallbacks, Tool } from './session.ts'
import { geometryOf } from './shape.ts'
import type { Table } from './table.ts'

/**
 * Starts drawing or editing on the map; one session at a time. `origin` is where the farm's plane lies, null for a farm
 * that has none: it is then reckoned about the first corner.
 */
export function startSession(
  farmMap: FarmMap,
  tool: Tool,
  origin: LonLat | null,
  callbacks: SessionCallbacks,
): Session {
  const { map } = farmMap.drawing
  const container = map.getContainer()
  const edited: Thing | null = tool.do === 'edit' ? { kind: tool.kind, id: tool.id } : null
  const ground = groundOf(farmMap, origin, edited)
  if (tool.do === 'edit' && origin === null) ground.settle(ground.lonLat([0, 0]))
  const overlay = makeOverlay(container)
  let over = false

  const end = (shape: Geometry | null) => {
    over = true
    stopListening()
    container.classList.remove('drawing', 'can-take')
    farmMap.drawing.release(shape)
  }
  const clear = () => {
    map.off('move', show)
    overlay.remove()
  }
  const table: Table = {
    map,
    ground,
    overlay,
    callbacks: {
      ...callbacks,
      onMeasure(measures) {
        if (!over) callbacks.onMeasure(measures)
      },
    },
    finish(shape, measures) {
      const geometry = geometryOf(shape, ground.plane)
      end(edited ? geometry : null)
      overlay.settle()
      callbacks.onFinish({ geometry, measures: measures(geometry) })
      map.once('idle', clear).triggerRepaint()
    },
    canTake: (yes) => void container.classList.toggle('can-take', yes),
  }
  const work = tool.do === 'draw' ? drawNew(table, tool.what) : editShape(table, tool.kind, tool.geometry)
  const show = () => work.show()
  const cancel = () => {
    if (over) return
    end(null)
    clear()
    callbacks.onCancel()
  }
  const stopListening = listenToHand(map, {
    ...work.hearer,
    key(event) {
      if (event.key !== 'Escape') return work.hearer.key(event)
      cancel()
      return true
    },
  })
  farmMap.drawing.hold(edited)
  container.classList.add('drawing')
  map.on('move', show)
  map.getCanvas().focus({ preventScroll: true })
  show()

  const whileOn =
    <A extends unknown[], R>(run: (...args: A) => R, otherwise: R) =>
    (...args: A): R =>
      over ? otherwise : run(...args)
  return {
    tool,
    typeLength: whileOn(work.typeLength, undefined),
    typeWidth: whileOn(work.typeWidth, undefined),
    putCorner: whileOn(work.putCorner, undefined),
    takeBack: whileOn(work.takeBack, undefined),
    finish: whileOn(work.finish, null),
    cancel,
  }
}
