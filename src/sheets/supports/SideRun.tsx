import type { LineString, Polygon } from 'geojson'
import { useState } from 'preact/hooks'
import type { Metres } from '../../../geo/plane/lonLat.ts'
import { planeAbout } from '../../../geo/plane/plane.ts'
import { type PostsInGround, postsToReuse } from '../../../geo/supports/postsToReuse.ts'
import { postsOf } from '../../../geo/supports/runBill.ts'
import { type Side, sideLine } from '../../../geo/supports/sideLine.ts'
import type { Card, DeskFault } from '../../desk/door.ts'
import { Chips } from '../../ui/Chips.tsx'
import { Entry } from '../../ui/Entry.tsx'
import { sidesOf } from '../ground/sideOf.ts'
import { lengthFigure, showCount, told } from '../show/figures.ts'
import { openFarm, units } from '../state/farm.ts'
import { newId } from '../state/newId.ts'
import { measured } from '../state/shown.ts'
import { doEdits } from '../state/steps.ts'
import { seen } from '../state/supports.ts'
import { systems } from '../state/systems.ts'
import { on } from '../state/where.ts'
import { ReuseChips, type ReusePosts } from './ReuseChips.tsx'

type Line = readonly Metres[]

/** On the card of a bed or row: puts a run along it by one tap, with the system and the day told beside it. */
export function SideRun({ card }: { readonly card: Card }) {
  const [system, setSystem] = useState('')
  const [putUp, setPutUp] = useState(on.value)
  const [leftUp, setLeftUp] = useState(false)
  const [reuse, setReuse] = useState<ReusePosts>('same part')
  const [fault, setFault] = useState<DeskFault | null>(null)
  const origin = openFarm.value?.origin
  if (!origin || systems.value.length === 0) return null
  const plane = planeAbout(origin)
  const lines = linesOf(card, (at) => plane.toMetres([at[0]!, at[1]!]))
  if (lines.length === 0) return null
  const recipe = seen.value?.recipes.find(({ id }) => id === (system || systems.value[0]!.id))
  const standing: readonly PostsInGround[] = [
    ...(seen.value?.loose ?? []).map((at) => ({ part: null, count: 1, at: plane.toMetres(at) })),
    ...(seen.value?.runs ?? [])
      .filter((run) => (run.putUp ?? '') <= putUp)
      .flatMap((run) => run.posts.map(({ part, at, count }) => ({ part, count, at: plane.toMetres(at) }))),
  ]
  const putAlong = async (words: string, line: Line) => {
    const id = newId()
    const geom: LineString = { type: 'LineString', coordinates: line.map((at) => [...plane.toLonLat(at)]) }
    const reply = await doEdits(`Put up a support, ${card.title} ${words}`.trim(), [
      {
        do: 'add',
        kind: 'supports',
        record: {
          id,
          extra: {},
          system: system || systems.value[0]!.id,
          put_up: putUp || null,
          taken_down: null,
          permanent: leftUp,
          height_m: null,
          note: null,
          reuse_posts: reuse,
          geom,
        },
      },
    ])
    setFault(reply.ok ? null : reply.fault)
  }
  return (
    <details class="more side-run">
      <summary>Put up a support here</summary>
      <Entry label="System">
        {(names) => (
          <select
            {...names}
            value={system || systems.value[0]!.id}
            onInput={(event) => setSystem(event.currentTarget.value)}
          >
            {systems.value.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        )}
      </Entry>
      <Entry label="Put up on">
        {(names) => (
          <input {...names} type="date" value={putUp} onInput={(event) => setPutUp(event.currentTarget.value)} />
        )}
      </Entry>
      <Chips
        label="It is"
        options={[
          { value: 'season', words: 'for a season' },
          { value: 'up', words: 'left up' },
        ]}
        chosen={[leftUp ? 'up' : 'season']}
        onTap={(value) => setLeftUp(value === 'up')}
      />
      <ReuseChips chosen={reuse} onTap={setReuse} />
      <ul class="side-runs">
        {lines.map(({ words, line }) => {
          const lengthM = lengthOf(line)
          const posts = recipe ? postsOf({ lengthM, heightM: null, plants: null, permanent: leftUp }, recipe) : []
          const needed = posts.reduce((sum, { count }) => sum + count, 0)
          const left = reuse === 'none' ? posts : postsToReuse(line, posts, standing, reuse).left
          const there = needed - left.reduce((sum, { count }) => sum + count, 0)
          return (
            <li key={words}>
              <button type="button" onClick={() => void putAlong(words, line)}>
                Along {words}
              </button>
              <span>
                {told(lengthFigure(lengthM, units.value))}
                {needed > 0 &&
                  `, ${showCount(needed - there)} posts${there > 0 ? ` and ${showCount(there)} that stand already` : ''}`}
              </span>
            </li>
          )
        })}
      </ul>
      <p class="hint">
        A post that stands within 0.3 m of where one is needed may serve; the bill then leaves it out. It is put up as
        one step, which Undo takes back.
      </p>
      {fault && (
        <p class="fault" role="alert">
          {fault.detail}
        </p>
      )}
    </details>
  )
}

/** Where a run can be put along a row or a bed: the row itself, or the bed's edges and middle, by compass. */
function linesOf(card: Card, toMetres: (at: readonly number[]) => Metres): { words: string; line: Line }[] {
  const geom = card.record.geom
  if (geom?.type === 'LineString') return [{ words: 'the row', line: (geom as LineString).coordinates.map(toMetres) }]
  if (geom?.type !== 'Polygon') return []
  const bearing = measured.value?.beds.find(({ id }) => id === card.id)?.bearing_deg ?? 0
  const outline = (geom as Polygon).coordinates[0]!.slice(0, -1).map(toMetres)
  return (['left', 'middle', 'right'] as const).flatMap((side: Side) => {
    const line = sideLine(outline, side)
    return line ? [{ words: `the ${compassSide(side, bearing)}`, line }] : []
  })
}

/** Looking along a bearing from 0° up to 180°, the left is north of a bed that runs east, west of one that runs north. */
function compassSide(side: Side, bearingDeg: number): string {
  const [first, middle, last] = sidesOf(bearingDeg)
  if (side === 'middle') return middle
  const southward = first.startsWith('west') && bearingDeg > 90
  return (side === 'left') !== southward ? first : last
}

const lengthOf = (line: Line) =>
  line.slice(1).reduce((sum, [x, y], n) => sum + Math.hypot(x - line[n]![0], y - line[n]![1]), 0)
