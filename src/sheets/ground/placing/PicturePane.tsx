import { effect, useSignalEffect } from '@preact/signals'
import { useEffect, useRef, useState } from 'preact/hooks'
import { type GroundMarks, markMap } from '../../../draw/markMap.ts'
import { type PictureView, showPicture } from '../../../draw/pictureView.ts'
import { farmMap } from '../../state/mapHandle.ts'
import { placedNow } from '../../state/placing.ts'
import { badMark } from './badMark.ts'
import { showPreview } from './preview.ts'
import { writePlace } from './readPlacing.ts'
import { changeMark, chosenMark, image, outcome, placing, removeMark, strength, takeSpot } from './state.ts'

const choose = (id: string) => {
  chosenMark.value = id
}

/** The picture beside the map, with its points; the map's own points, and the picture under the beds, follow from here. */
export function PicturePane() {
  const ground = useRef<HTMLDivElement>(null)
  const [view, setView] = useState<PictureView | null>(null)
  const [onMap, setOnMap] = useState<GroundMarks | null>(null)
  useEffect(() => {
    const { widthPx, heightPx } = placing.value!
    const shown = showPicture(
      ground.current!,
      { image: image.value!, widthPx, heightPx },
      { tap: takeSpot, choose, move: (id, spot) => changeMark(id, { spot }), remove: removeMark },
    )
    setView(shown)
    return () => shown.remove()
  }, [])
  const map = farmMap.value
  useEffect(() => {
    if (!map) return
    const shown = markMap(map, {
      choose,
      move: (id, place) => changeMark(id, { place, typed: writePlace(place), fault: null }),
      remove: removeMark,
    })
    setOnMap(shown)
    return () => shown.remove()
  }, [map])
  useEffect(
    () =>
      effect(() => {
        const told = { chosen: chosenMark.value, bad: badMark.value }
        const marks = (placing.value?.marks ?? []).map((mark, i) => ({
          ...mark,
          number: i + 1,
          chosen: mark.id === told.chosen,
          bad: mark.id === told.bad,
        }))
        view?.show(marks.flatMap((mark) => (mark.spot ? [{ ...mark, at: mark.spot }] : [])))
        onMap?.show(marks.flatMap((mark) => (mark.place ? [{ ...mark, at: mark.place }] : [])))
      }),
    [view, onMap],
  )
  useSignalEffect(() => {
    const now = outcome.value
    const seen = image.value
    if (seen && now && typeof now !== 'string') showPreview(seen, now.placed.corners, strength.value)
    else placedNow.value = null
  })
  return (
    <section class="picture-pane" aria-label="The picture">
      <div class="picture-ground" ref={ground} />
      <fieldset class="zoom-tools">
        <legend class="unseen">Zoom of the picture</legend>
        <button type="button" onClick={() => view?.zoomBy(1.5)}>
          <span class="sign" aria-hidden="true">
            +
          </span>
          <span class="unseen">Larger picture</span>
        </button>
        <button type="button" onClick={() => view?.zoomBy(1 / 1.5)}>
          <span class="sign" aria-hidden="true">
            −
          </span>
          <span class="unseen">Smaller picture</span>
        </button>
        <button type="button" onClick={() => view?.fit()}>
          <span aria-hidden="true">All</span>
          <span class="unseen">All of the picture</span>
        </button>
      </fieldset>
    </section>
  )
}
