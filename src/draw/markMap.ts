import type { LonLat } from '../../geo/plane/lonLat.ts'
import type { FarmMap } from '../map/farmMap.ts'
import { type Mark, makeMarks } from './marks.ts'

/** A mark that lies somewhere on the earth. */
export interface GroundMark extends Omit<Mark, 'at'> {
  readonly at: LonLat
}

export interface GroundMarks {
  show(marks: readonly GroundMark[]): void
  remove(): void
}

/** Numbered marks on the map, that stay on their ground while the map moves. */
export function markMap(
  { drawing: { map } }: FarmMap,
  hear: { choose(id: string): void; move(id: string, to: LonLat): void; remove(id: string): void },
): GroundMarks {
  const container = map.getContainer()
  let shown: readonly GroundMark[] = []
  const marks = makeMarks(container, 'on the map', {
    ...hear,
    move(id, [x, y]) {
      const { lng, lat } = map.unproject([x, y])
      hear.move(id, [lng, lat])
    },
  })
  const lay = () =>
    marks.show(
      shown.map((mark) => {
        const { x, y } = map.project([mark.at[0], mark.at[1]])
        return { ...mark, at: [x, y] }
      }),
    )
  map.on('move', lay)
  map.on('resize', lay)
  container.classList.add('marking')
  return {
    show(given) {
      shown = given
      lay()
    },
    remove() {
      map.off('move', lay)
      map.off('resize', lay)
      container.classList.remove('marking')
      marks.remove()
    },
  }
}
