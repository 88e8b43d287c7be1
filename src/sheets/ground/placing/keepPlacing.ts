import { ask } from '../../state/door.ts'
import { addLargePhoto, largeFault } from '../../state/largePhotos.ts'
import { askPhotos } from '../../state/photos.ts'
import { stopPlacing } from '../../state/placing.ts'
import { doEdits, takeStep } from '../../state/steps.ts'
import { on } from '../../state/where.ts'
import { quickenAdded } from '../quickenNow.ts'
import { placeOf } from './placeOf.ts'
import { keepFault, outcome, placing, read, source, strength } from './state.ts'

/** Keeps the picture as it lies now, as one step: a new photo, or a photo of the farm placed anew. */
export async function keepPlacing(): Promise<void> {
  const [now, placed, from] = [placing.value, outcome.value, source.value]
  if (!now || !placed || typeof placed === 'string' || !from) return
  const ids = read.value!.pointIds
  const place = placeOf(
    placed,
    ids.map((id) => now.marks.find((mark) => mark.id === id)!),
    strength.value,
  )
  const day = now.on === '' ? null : now.on
  keepFault.value = null
  let id: string
  if ('id' in from) {
    const reply = await doEdits(`Place the photo ${now.name} anew`, [
      { do: 'change', kind: 'photos', id: from.id, to: { ...place, on: day } },
    ])
    if (!reply.ok) {
      keepFault.value = reply.fault
      return
    }
    id = from.id
  } else if ('large' in from) {
    const added = await addLargePhoto(from.large, null, { place, on: day })
    if (added === null || added === 'unplaced') {
      keepFault.value = largeFault.value
      largeFault.value = null
      return
    }
    takeStep(added.changed, added.changed.label)
    id = added.id
  } else {
    const reply = await ask('addPhoto', { files: from.files, on: day, crs: null, place, at: on.value })
    if (!reply.ok) {
      keepFault.value = reply.fault
      return
    }
    takeStep(reply.value.changed, reply.value.changed.label)
    id = reply.value.photo.id
  }
  await askPhotos()
  stopPlacing()
  await quickenAdded(id)
}
