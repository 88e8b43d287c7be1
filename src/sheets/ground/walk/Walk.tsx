import { useEffect, useMemo, useState } from 'preact/hooks'
import { judgeWalked, usualToleranceM, type WalkedBy, walkedShape } from '../../../../geo/track/walkedShape.ts'
import { farmMap, mapView } from '../../state/mapHandle.ts'
import { closeWalk, walking } from '../../state/walking.ts'
import { proposedWalk } from './proposeWalk.ts'
import { WalkBegin } from './WalkBegin.tsx'
import { WalkRecord } from './WalkRecord.tsx'
import { WalkShape } from './WalkShape.tsx'
import { walkNow, walkPlane } from './walkNow.ts'
import type { Becomes } from './walkWords.ts'

/** A boundary that is walked: begun or taken from a file, recorded, and made a shape. */
export function Walk() {
  const { recording, file } = walking.value!
  const walk = walkNow.value
  const plane = walkPlane.value
  const [becomes, setBecomes] = useState<Becomes>('fields')
  const [by, setBy] = useState<WalkedBy | null>(null)
  const [tolerance, setTolerance] = useState<number | null>(null)
  const closed = becomes !== 'rows' && becomes !== 'structure line'
  const held = walk.parts.filter((part) => part.is === 'held' && part.corner).length
  const way: WalkedBy = by ?? (held >= (closed ? 3 : 2) ? 'corners' : 'way')
  const usualM = useMemo(() => usualToleranceM(walk), [walk])
  const toleranceM = tolerance ?? usualM
  const shape = useMemo(() => walkedShape(walk, way, closed, toleranceM), [walk, way, closed, toleranceM])

  useEffect(() => {
    if (plane) void farmMap.value?.setProposed(proposedWalk(walk, { ...shape, closed }, recording, plane))
  }, [walk, shape, closed, recording, plane])
  useEffect(() => () => void farmMap.value?.setProposed(null), [])
  useEffect(() => {
    const last = walk.parts.at(-1)?.fixes.at(-1)
    if (plane && last && recording) keepInSight(plane.toLonLat(last.at), walk.fixes === 1)
  }, [walk.fixes, recording])
  useEffect(() => {
    if (!plane || recording || shape.corners.length < 2) return
    const places = shape.corners.map(plane.toLonLat)
    const [lons, lats] = [places.map(([lon]) => lon), places.map(([, lat]) => lat)]
    farmMap.value?.fitTo({
      southWest: [Math.min(...lons), Math.min(...lats)],
      northEast: [Math.max(...lons), Math.max(...lats)],
    })
  }, [file, recording])

  return (
    <section class="walking" aria-label="A walked boundary">
      <div class="card-head">
        <h2>{file === null ? 'Walk a boundary' : 'A track from a file'}</h2>
        <button type="button" class="quiet" onClick={closeWalk}>
          Close<span class="unseen"> the walk; what was walked stays</span>
        </button>
      </div>
      {recording && <WalkRecord />}
      {!recording && <WalkBegin />}
      {!recording && walk.fixes > 0 && plane && (
        <WalkShape
          walk={walk}
          plane={plane}
          shape={shape}
          judgement={judgeWalked(shape, closed)}
          becomes={becomes}
          onBecomes={setBecomes}
          by={way}
          onBy={setBy}
          toleranceM={toleranceM}
          onTolerance={setTolerance}
          closed={closed}
        />
      )}
    </section>
  )
}

/** How far from the map's middle the device may be before the map follows, in pixels: within sight on a phone, too. */
const IN_SIGHT_PX = 100

function keepInSight([lon, lat]: readonly [number, number], first: boolean): void {
  const view = mapView.value
  if (!view) return
  const eastM = (lon - view.centre[0]) * 111_320 * Math.cos((lat * Math.PI) / 180)
  const northM = (lat - view.centre[1]) * 111_320
  if (!first && Math.hypot(eastM, northM) < IN_SIGHT_PX * view.metresPerPixel) return
  farmMap.value?.setView({ ...view, centre: [lon, lat], zoom: first ? Math.max(view.zoom, 18) : view.zoom })
}
