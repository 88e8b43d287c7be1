import type { Photo } from '../../../../geo/model/photos.ts'
import { pixelFromHeightM } from '../../../../geo/photo/exif.ts'
import { planeAbout } from '../../../../geo/plane/plane.ts'
import type { DeskFault, Taken } from '../../../desk/door.ts'
import { lengthFigure, showNumber, told } from '../../show/figures.ts'
import { units } from '../../state/farm.ts'
import { newId } from '../../state/newId.ts'
import type { Placer } from '../../state/placing.ts'
import { PicturePane } from './PicturePane.tsx'
import { PlacePanel } from './PlacePanel.tsx'
import { type Mark, type Placing, type TypedTape, writePlace } from './readPlacing.ts'
import { type SeenToPlace, seePicture } from './seePicture.ts'
import {
  chosenMark,
  image,
  keepFault,
  metresPer,
  placing,
  saidByPicture,
  source,
  strength,
  takePlace,
} from './state.ts'
import type { ToPlace } from './toPlace.ts'

/** How high a picture is taken to have been taken from until the person says, in metres above the ground. */
const ASSUMED_M = 50

/** Opens a picture and lays out what is known of its place. */
export async function makePlacer(of: ToPlace, signal: AbortSignal): Promise<Placer | DeskFault> {
  const photo = 'id' in of ? of : null
  const reply = await seePicture(of, signal)
  if (!reply.ok) return reply.fault
  const seen = reply.value
  image.value = seen.image
  source.value = 'id' in of ? { id: of.id } : 'large' in of ? of : { files: of }
  chosenMark.value = null
  strength.value = photo?.opacity ?? 1
  keepFault.value = null
  saidByPicture.value = wordsOf(seen.taken)
  placing.value = photo ? asKept(seen, photo) : asTaken(seen)
  return { Picture: PicturePane, Panel: PlacePanel, take: takePlace }
}

const typedLength = (m: number): string => String(Number((m / metresPer.value).toFixed(2)))

/** A picture just chosen: what its tags say is the first guess. */
function asTaken({ name, widthPx, heightPx, taken }: SeenToPlace): Placing {
  const { at, headingDeg, filmFocalMm, subjectM } = taken
  return {
    name,
    widthPx,
    heightPx,
    kind: 'similarity',
    marks: [],
    tapes: [],
    guess: {
      middle: at ? writePlace(at) : '',
      heading: headingDeg === null ? '' : String(Number(headingDeg.toFixed(1))),
      height: at && filmFocalMm !== null && subjectM !== null ? typedLength(subjectM) : '',
    },
    filmFocalMm,
    pixelM: at && filmFocalMm !== null ? pixelFromHeightM(ASSUMED_M, filmFocalMm, widthPx, heightPx) : null,
    on: taken.on ?? '',
  }
}

/** A photo of the farm: its points and tapes as they were kept, and how it lay as the guess. */
function asKept(seen: SeenToPlace, photo: Photo): Placing {
  const marks: Mark[] = (photo.control_points ?? []).map(({ col, row, lon, lat }) => ({
    id: newId(),
    spot: [col, row],
    place: [lon, lat],
    typed: writePlace([lon, lat]),
    fault: null,
  }))
  const markAt = ([col, row]: readonly [number, number]): string => {
    const found = marks.find(({ spot }) => spot?.[0] === col && spot[1] === row)
    if (found) return found.id
    const made: Mark = { id: newId(), spot: [col, row], place: null, typed: '', fault: null }
    marks.push(made)
    return made.id
  }
  const tapes: TypedTape[] = (photo.placed_by?.tapes ?? []).map(({ from, to, length_m }) => ({
    id: newId(),
    from: markAt(from),
    to: markAt(to),
    typed: typedLength(length_m),
  }))
  return {
    ...asTaken(seen),
    kind: photo.placed_by?.fit ?? 'similarity',
    marks,
    tapes,
    ...(photo.corners && lay(photo.corners, seen.heightPx)),
    on: photo.on ?? '',
  }
}

/** Where a photo lay, by its corners: its middle, what its left side looks to, and the size of its pixels along it. */
function lay(corners: NonNullable<Photo['corners']>, heightPx: number): Pick<Placing, 'guess' | 'pixelM'> {
  const plane = planeAbout(corners[0])
  const metres = corners.map((corner) => plane.toMetres(corner))
  const mean = (k: 0 | 1) => metres.reduce((sum, at) => sum + at[k], 0) / metres.length
  const [upperLeft, , , lowerLeft] = metres as unknown as readonly (readonly [number, number])[]
  const [east, north] = [upperLeft![0] - lowerLeft![0], upperLeft![1] - lowerLeft![1]]
  const heading = ((Math.atan2(east, north) * 180) / Math.PI + 360) % 360
  return {
    guess: {
      middle: writePlace(plane.toLonLat([mean(0), mean(1)])),
      heading: String(Number(heading.toFixed(2))),
      height: '',
    },
    pixelM: Math.hypot(east, north) / heightPx,
  }
}

/** What a picture's tags say that helps in placing it. */
function wordsOf({ at, altitudeM, headingDeg, isMagnetic, filmFocalMm, subjectM }: Taken): string | null {
  if (!at) return null
  const parts = [
    `taken at ${writePlace(at)}`,
    ...(altitudeM === null ? [] : [`${told(lengthFigure(altitudeM, units.value))} above the sea`]),
    ...(headingDeg === null ? [] : [`looking to ${showNumber(headingDeg, 0)}°${isMagnetic ? ' (magnetic)' : ''}`]),
  ]
  const assumed =
    filmFocalMm !== null && subjectM === null
      ? ` How high above the ground it does not say: ${told(lengthFigure(ASSUMED_M, units.value))} is assumed until you do.`
      : ''
  return `The picture says that it was ${parts.join(', ')}.${assumed}`
}
