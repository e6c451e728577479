import type { MeasureProblem } from '../cover/measurePhoto.ts';
import type { PhotoProblem } from '../photo-file/photoProblem.ts';
import { catalogue } from './catalogue.ts';
import { formatCount, formatLength } from './format.ts';

const CORNERS = ['top left', 'top right', 'bottom right', 'bottom left'];

const megapixels = (widthPx: number, heightPx: number): string => formatLength((widthPx * heightPx) / 1e6);

/** What is wrong with a photo and the way out, without its name. */
export const photoProblemText = catalogue(
  'photoProblemText',
  (problem: PhotoProblem | MeasureProblem): string => {
    switch (problem.code) {
      case 'empty-file':
        return 'The file is empty (0 bytes). Copy it from the camera again.';
      case 'not-a-picture':
        return 'This is no picture, whatever its name says. Choose the photo as the camera saved it: JPEG, PNG or WebP.';
      case 'truncated':
        return 'The file ends before the picture does, as after a copy that was broken off. Copy it from the camera again.';
      case 'damaged':
        return `The file is damaged (${problem.detail}). Copy it from the camera again; if that does not help, open it in a picture program and save it as JPEG.`;
      case 'too-large':
        return (
          `${formatCount(problem.widthPx)} × ${formatCount(problem.heightPx)} pixels are ` +
          `${megapixels(problem.widthPx, problem.heightPx)} megapixels; up to ${problem.limitMegapixels} can be measured. ` +
          'Save the photo at a smaller size; 12 megapixels are plenty for a plot.'
        );
      case 'too-small':
        return (
          `${formatCount(problem.widthPx)} × ${formatCount(problem.heightPx)} pixels are too few to tell leaves from ground: ` +
          `each side needs at least ${problem.leastSidePx}. This may be a thumbnail; choose the photo itself.`
        );
      case 'heic-not-decodable':
        return (
          'HEIC photos cannot be opened here. Set the camera to "most compatible" (JPEG) for the next photos, ' +
          'and export this one as JPEG at full size.'
        );
      case 'cmyk':
        return 'The colours are stored for printing (CMYK). Export the photo as JPEG in sRGB.';
      case 'greyscale':
        return 'The photo has no colours, and grass is told from ground by colour. Choose the colour photo as the camera saved it.';
      case 'unsupported-kind':
        return `${capitalised(problem.kind)} cannot be measured. Export the photo as an ordinary JPEG at full size.`;
      case 'frame-corner-outside':
        return (
          `The ${CORNERS[problem.corner]} corner of the frame (${formatLength(problem.x)}, ${formatLength(problem.y)}) lies outside the photo. ` +
          'Corners are in pixels of the upright photo, counted from its top left.'
        );
      case 'frame-corners-crossed':
        return 'The corners of the frame cross or run the wrong way. Give them as top left, top right, bottom right, bottom left.';
      case 'frame-too-small':
        return `The frame holds only ${formatCount(Math.round(problem.areaPx))} pixels. Check its corners, or take the photo from closer.`;
      case 'frame-too-slanted':
        return 'These corners would be a frame seen almost from the side. Check the corners, or photograph it from straight above.';
      case 'nothing-to-measure':
        return 'Nothing is left to measure: ignored areas, the neutral reference and transparent parts take the whole frame. Make them smaller.';
    }
  },
);

const capitalised = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);
