import type { DeskFault } from '../../../desk/door.ts'
import { dropPending, layDown } from '../../state/drawing.ts'
import { largeFault, largeGridWanted } from '../../state/largePhotos.ts'
import { stopLaying } from '../../state/laying.ts'
import { showPane } from '../../state/pane.ts'
import { gridWanted, photoDoing, photoFault } from '../../state/photos.ts'
import { type Placer, placedAnew, placer } from '../../state/placing.ts'
import { closeWalk, walking } from '../../state/walking.ts'
import type { ToPlace } from './toPlace.ts'

/** Begins to place a picture just chosen, or a photo of the farm. What is needed for it is loaded now. */
export async function startPlacing(of: ToPlace): Promise<void> {
  layDown()
  dropPending()
  stopLaying()
  if (walking.value) closeWalk()
  photoFault.value = null
  gridWanted.value = null
  largeFault.value = null
  largeGridWanted.value = null
  const stop = new AbortController()
  const name = nameOf(of)
  photoDoing.value = { what: `Opening ${name}`, stop: () => stop.abort() }
  const { makePlacer } = await import('./makePlacer.ts')
  const made: Placer | DeskFault = await makePlacer(of, stop.signal)
  photoDoing.value = null
  if ('kind' in made) {
    if (made.kind !== 'stopped') photoFault.value = made
    return
  }
  placedAnew.value = 'id' in of ? of.id : null
  placer.value = made
  showPane('map')
}

function nameOf(of: ToPlace): string {
  if ('id' in of) return of.name ?? of.file
  return ('large' in of ? of.large : of).map((file) => file.name).join(', ')
}
