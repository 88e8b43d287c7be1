import type { Answers } from './answers.ts'
import { bringIn, lookIntoFile, seeBringing } from './bringIn.ts'
import { edit, redo, remove, undo } from './edits.ts'
import { bringArchive, forgetFarm, listFarms, makeDemo, makeFarm, openFarmById } from './farms.ts'
import { bedHistory, copySeason, layRotation, readRotation, warnings } from './growing.ts'
import { freeRemovedPhotos, photoRoom, recordPhoto } from './keptPhotos.ts'
import {
  clearance,
  listPhotos,
  listRecords,
  measure,
  pickWeeks,
  recordsOver,
  recordsWith,
  seasonBook,
  seeCard,
  seeLayers,
  supportRuns,
} from './looks.ts'
import { addPhoto, photoPicture, seePicture } from './photos.ts'
import { namePlanting, nearPlantings, notebookNames, pickHabits, readPick, seasonPicking } from './picking.ts'
import { keepNotePicture, seeNotePicture } from './pictures.ts'
import { readTracks } from './readTracks.ts'
import { sendOut } from './sendOut.ts'
import { bedShade, canopyYears, casters, climbed, readSiting } from './siting.ts'
import { heldSeason, supportsSeen, supportsWear, systemsCompared } from './supports.ts'
import { takeArchive } from './takeArchive.ts'
import { yieldComparisons, yieldNear, yieldOf, yieldPoints, yieldSeasons, yieldSmooth } from './yields.ts'

/** Who answers which request. */
export const allAnswers: Answers = {
  listFarms,
  makeFarm,
  makeDemo,
  bringArchive,
  openFarm: openFarmById,
  forgetFarm,
  takeArchive,
  seeLayers,
  edit,
  remove,
  undo,
  redo,
  measure,
  clearance,
  supportRuns,
  supportsSeen,
  heldSeason,
  supportsWear,
  systemsCompared,
  yield: yieldOf,
  yieldComparisons,
  yieldNear,
  yieldPoints,
  yieldSeasons,
  casters,
  bedShade,
  canopyYears,
  climbed,
  yieldSmooth,
  readSiting,
  pickWeeks,
  seasonPicking,
  readPick,
  pickHabits,
  namePlanting,
  nearPlantings,
  notebookNames,
  warnings,
  bedHistory,
  copySeason,
  readRotation,
  layRotation,
  seasonBook,
  keepNotePicture,
  seeNotePicture,
  seeCard,
  listRecords,
  recordsOver,
  recordsWith,
  listPhotos,
  addPhoto,
  seePicture,
  photoPicture,
  readTracks,
  recordPhoto,
  photoRoom,
  freeRemovedPhotos,
  lookIntoFile,
  seeBringing,
  bringIn,
  sendOut,
}
