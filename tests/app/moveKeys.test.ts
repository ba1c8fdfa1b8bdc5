import { describe, expect, test } from 'vitest';
import { axesOfView, MANY, moveOf } from '../../src/app/edit/moveKeys.ts';

const press = (key: string, shiftKey = false) => ({
  key,
  shiftKey,
  ctrlKey: false,
  metaKey: false,
  altKey: false,
});
const FRONT = axesOfView('front', 'front', 'left');

describe('arrow keys move a point as it is seen', () => {
  // as the driver sits, the left of the picture is the left of the vehicle: Y is to the left in ISO 8855
  test.each([
    ['ArrowLeft', { axis: 1, marks: 1 }],
    ['ArrowRight', { axis: 1, marks: -1 }],
    ['ArrowUp', { axis: 2, marks: 1 }],
    ['ArrowDown', { axis: 2, marks: -1 }],
    ['PageUp', { axis: 0, marks: 1 }],
    ['PageDown', { axis: 0, marks: -1 }],
  ])('from behind, %s', (key, move) => {
    expect(moveOf(press(key), FRONT, 1)).toEqual(move);
  });

  test('from the left side forward is to the left, from the top it is up', () => {
    expect(moveOf(press('ArrowLeft'), axesOfView('side', 'front', 'left'), 1)).toEqual({
      axis: 0,
      marks: 1,
    });
    const top = axesOfView('top', 'front', 'left');
    expect(moveOf(press('ArrowUp'), top, 1)).toEqual({ axis: 0, marks: 1 });
    expect(moveOf(press('ArrowLeft'), top, 1)).toEqual({ axis: 1, marks: 1 });
  });

  test('from the corner of a front axle the left of the picture is the passenger side', () => {
    const corner = axesOfView('corner', 'front', 'left');
    expect(moveOf(press('ArrowLeft'), corner, 1)).toEqual({ axis: 1, marks: -1 });
    expect(moveOf(press('ArrowUp'), corner, 1)).toEqual({ axis: 2, marks: 1 });
  });

  test('on the right of a mirrored pair sideways is turned round', () => {
    expect(moveOf(press('ArrowLeft'), FRONT, -1)).toEqual({ axis: 1, marks: -1 });
    expect(moveOf(press('ArrowUp'), FRONT, -1)).toEqual({ axis: 2, marks: 1 });
  });

  test('with Shift by more, and never with Control', () => {
    expect(moveOf(press('ArrowUp', true), FRONT, 1)).toEqual({ axis: 2, marks: MANY });
    expect(moveOf({ ...press('ArrowUp'), ctrlKey: true }, FRONT, 1)).toBeNull();
    expect(moveOf(press('x'), FRONT, 1)).toBeNull();
  });
});
