import type { LonLat } from '../../geo/plane/lonLat.ts'
import type { FarmMap } from '../map/farmMap.ts'
import { arrangeThings } from './arrangeThings.ts'
import { drawNew } from './drawNew.ts'
import { editShape } from './editShape.ts'
import { groundOf } from './ground.ts'
import { type Hearer, listenToHand } from './hand.ts'
import { moveThings } from './moveThings.ts'
import { makeOverlay } from './overlay.ts'
import { linesOf } from './placeGeometry.ts'
import { selectThings } from './selectThings.ts'
import type { Finished, PlacedThing, Session, SessionCallbacks, SessionWork, Tool } from './session.ts'
import { type EditGeometry, geometryOf } from './shape.ts'
import { ALL_SNAPS } from './snap.ts'
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
  const hidden = hiddenBy(tool)
  const [edited] = tool.do === 'edit' ? hidden : []
  const ground = groundOf(farmMap, origin, hidden, () => callbacks.snaps?.() ?? ALL_SNAPS)
  if (tool.do !== 'draw' && origin === null) ground.settle(ground.lonLat([0, 0]))
  const overlay = makeOverlay(container)
  const beside = makeOverlay(container)
  let over = false
  let shown: { readonly things: readonly PlacedThing[]; readonly faulty: boolean } = { things: [], faulty: false }

  const end = () => {
    over = true
    stopListening()
    container.classList.remove('drawing', 'can-take')
  }
  /** The shape stands as it was drawn until it has been told, and then until the map has drawn it. */
  const settle = (placed: readonly PlacedThing[], finished: Finished) => {
    end()
    overlay.settle()
    const told = callbacks.onFinish(finished)
    void farmMap.drawing.release(placed, told).then(() => map.once('idle', clear).triggerRepaint())
  }
  const clear = () => {
    map.off('move', show)
    overlay.remove()
    beside.remove()
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
    finish(shape, measures, others = []) {
      const geometry = geometryOf(shape, ground.plane)
      settle([...(edited ? [{ ...edited, geometry }] : []), ...others], {
        geometry,
        measures: measures(geometry),
        others,
      })
    },
    finishAll(things, measures) {
      const [first] = things
      const geometry = (first?.geometry ?? { type: 'Point', coordinates: [0, 0] }) as EditGeometry
      settle(things, { geometry, measures, others: things })
    },
    canTake: (yes) => void container.classList.toggle('can-take', yes),
  }
  const work = workOf(tool, table, farmMap)
  let carried: readonly PlacedThing[] = []
  /** What goes along is drawn where it comes, and not by the map. */
  const hold = () => {
    carried = callbacks.along?.() ?? []
    farmMap.drawing.hold([...hidden, ...carried.map(({ kind, id }) => ({ kind, id }))])
  }
  const show = () => {
    work.show()
    const { things, faulty } = shown
    const lines = things
      .flatMap(({ geometry }) => linesOf(geometry, ground.plane))
      .map((line) => line.map(ground.toPixel))
    beside.draw({
      area: lines.filter((line) => line.length > 3),
      drawn: lines.filter((line) => line.length > 1),
      coming: [],
      soft: lines.filter((line) => line.length === 1),
      faulty,
      marks: [],
      words: [],
      crosshair: null,
    })
  }
  const cancel = () => {
    if (over) return
    end()
    void farmMap.drawing.release([])
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
  hold()
  container.classList.add('drawing')
  map.on('move', show)
  // What is arranged has a form of its own; and whoever is typing already must not lose their place.
  if (tool.do !== 'arrange' && !isEntry(document.activeElement)) map.getCanvas().focus({ preventScroll: true })
  show()

  const whileOn =
    <A extends unknown[], R>(run: (...args: A) => R, otherwise: R) =>
    (...args: A): R =>
      over ? otherwise : run(...args)
  return {
    tool,
    type: whileOn(work.type, undefined),
    putCorner: whileOn(work.putCorner, undefined),
    dropCorner: whileOn(work.dropCorner, undefined),
    takeBack: whileOn(work.takeBack, undefined),
    clear: whileOn(work.clear, undefined),
    preview: whileOn((things: readonly PlacedThing[], faulty: boolean) => {
      shown = { things, faulty }
      show()
    }, undefined),
    refresh: whileOn(() => {
      if (callbacks.along && callbacks.along() !== carried) hold()
      show()
    }, undefined),
    finish: whileOn(work.finish, null),
    cancel,
  }
}

const isEntry = (element: Element | null): boolean => element?.matches('input, select, textarea') ?? false

/** What is not drawn by the map meanwhile, and not snapped to: it is being changed. */
function hiddenBy(tool: Tool): readonly Omit<PlacedThing, 'geometry'>[] {
  if (tool.do === 'edit') return [{ kind: tool.kind, id: tool.id }]
  return tool.do === 'move' ? tool.things.map(({ kind, id }) => ({ kind, id })) : []
}

function workOf(
  tool: Tool,
  table: Table,
  { drawing }: FarmMap,
): SessionWork & { readonly hearer: Hearer; show(): void } {
  switch (tool.do) {
    case 'draw':
      return drawNew(table, tool.what, tool.of ?? null)
    case 'edit':
      return editShape(table, tool.kind, tool.geometry)
    case 'move':
      return moveThings(table, tool.things)
    case 'select':
      return selectThings(table, drawing)
    case 'arrange':
      return arrangeThings(table)
  }
}
