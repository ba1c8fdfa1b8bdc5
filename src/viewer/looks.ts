/** Colors and materials of the view, light and dark. */
import {
  Color,
  LineBasicMaterial,
  type Material,
  MeshBasicMaterial,
  MeshLambertMaterial,
  MeshStandardMaterial,
} from 'three';

export type Theme = 'light' | 'dark';

export type LookName =
  | 'rubber'
  | 'lug'
  | 'groove'
  | 'bushing'
  | 'housing'
  | 'knuckle'
  | 'cover'
  | 'disk'
  | 'wheel'
  | 'link'
  | 'rodEnd'
  | 'trackBar'
  | 'steering'
  | 'ram'
  | 'bright'
  | 'coil'
  | 'shock'
  | 'driveshaft'
  | 'steelBar'
  | 'added'
  | 'frame';

interface LookOf {
  /** Light, dark. */
  color: readonly [string, string];
  /** Roughness and metal; null: plain, without a sheen. */
  sheen: readonly [roughness: number, metal: number] | null;
}

export const LOOKS: Readonly<Record<LookName, LookOf>> = {
  rubber: { color: ['#4d5154', '#5a5c5d'], sheen: null },
  lug: { color: ['#404447', '#4a4c4d'], sheen: null },
  groove: { color: ['#26292b', '#2a2c2d'], sheen: null },
  bushing: { color: ['#33373a', '#3a3d3f'], sheen: null },
  housing: { color: ['#50575e', '#69727a'], sheen: [0.55, 0.35] },
  knuckle: { color: ['#5c636a', '#737c84'], sheen: [0.5, 0.45] },
  cover: { color: ['#b9bec2', '#b9bec2'], sheen: [0.35, 0.75] },
  disk: { color: ['#9aa1a6', '#a0a7ac'], sheen: [0.4, 0.7] },
  wheel: { color: ['#8d9499', '#a2a9ae'], sheen: [0.4, 0.6] },
  link: { color: ['#b08d62', '#b08d62'], sheen: [0.45, 0.4] },
  rodEnd: { color: ['#d9c48a', '#d9c48a'], sheen: [0.38, 0.6] },
  trackBar: { color: ['#6f5b86', '#9a84b5'], sheen: [0.45, 0.35] },
  steering: { color: ['#4a9f95', '#66bdb1'], sheen: [0.45, 0.35] },
  ram: { color: ['#454c52', '#5b636a'], sheen: [0.42, 0.5] },
  bright: { color: ['#dde1e4', '#e4e8ea'], sheen: [0.35, 0.8] },
  coil: { color: ['#8b9296', '#8b9296'], sheen: [0.4, 0.6] },
  shock: { color: ['#8f989f', '#8f989f'], sheen: [0.38, 0.65] },
  driveshaft: { color: ['#6a7177', '#7d858b'], sheen: [0.45, 0.5] },
  steelBar: { color: ['#7a8187', '#8b9298'], sheen: [0.45, 0.5] },
  added: { color: ['#7d858a', '#8d959a'], sheen: [0.5, 0.35] },
  frame: { color: ['#aab1b5', '#7d868b'], sheen: null },
};

/** How much of the frame is seen, light and dark. */
export const FRAME_OPACITY: Readonly<Record<Theme, number>> = { light: 0.5, dark: 0.42 };
/** Of what stands in front of the axle. */
export const FAINT_OPACITY: Readonly<Record<Theme, number>> = { light: 0.16, dark: 0.14 };
export const GHOST_OPACITY = 0.5;
/** Another axle, seen through in the dye of what is B. */
const BESIDE_OPACITY: Readonly<Record<Theme, number>> = { light: 0.44, dark: 0.5 };
const BESIDE_TINT = 0.75;

export const ENV_SHARE: Readonly<Record<Theme, number>> = { light: 0.5, dark: 0.62 };

/** Tones of the page that the view takes part in. */
export const TONES: Readonly<
  Record<
    Theme,
    {
      page: string;
      floor: string;
      line: string;
      ink: string;
      dye: string;
      touch: string;
      close: string;
      short: string;
    }
  >
> = {
  light: {
    page: '#eef0ee',
    floor: '#ffffff',
    line: '#c3c9c7',
    ink: '#14191b',
    dye: '#1a4e9e',
    touch: '#b01219',
    close: '#dd7a14',
    short: '#f0b93c',
  },
  dark: {
    page: '#15181a',
    floor: '#1d2124',
    line: '#3a4246',
    ink: '#f0f3f2',
    dye: '#7fb0ff',
    touch: '#ff6e5c',
    close: '#cd7714',
    short: '#b98a1e',
  },
};

/**
 * How a part is shown: as it is, touching or chosen, through a ghost of itself, as the frame that is seen through,
 * fainter where it would hide the axle, as its place at ride height, or as another axle that it is compared with.
 */
export type Showing =
  | 'solid'
  | 'touch'
  | 'chosen'
  | 'ghost'
  | 'frame'
  | 'faint'
  | 'ride'
  | 'beside';

/** Materials of one theme, made when first asked for; `dispose` ends them all. */
export class Materials {
  readonly theme: Theme;
  /** Writes depth alone, so that of a ghosted frame only the nearest faces are seen. */
  readonly depth = new MeshBasicMaterial({ colorWrite: false });
  /** Edges of the frame, and of what is fainter. */
  readonly edges: Readonly<Record<'frame' | 'faint', LineBasicMaterial>>;
  readonly #made = new Map<string, Material>();
  /** Where along X the frame is seen fully: it fades away from there. */
  readonly #middle: { value: number };

  /** @param middle X of the axle, in */
  constructor(theme: Theme, middle: number) {
    this.theme = theme;
    this.#middle = { value: middle };
    const edge = (opacity: number): LineBasicMaterial => {
      const { ink } = TONES[theme];
      const material = new LineBasicMaterial({ color: ink, transparent: true, opacity });
      material.depthWrite = false;
      fading(material, this.#middle);
      return material;
    };
    this.edges = { frame: edge(theme === 'light' ? 0.34 : 0.3), faint: edge(0.13) };
  }

  of(look: LookName, showing: Showing): Material {
    const key = `${look} ${showing}`;
    let found = this.#made.get(key);
    if (!found) {
      found = make(look, showing, this.theme);
      if (showing === 'frame' || showing === 'faint') fading(found, this.#middle);
      this.#made.set(key, found);
    }
    return found;
  }

  dispose(): void {
    for (const each of this.#made.values()) each.dispose();
    this.#made.clear();
    this.depth.dispose();
    this.edges.frame.dispose();
    this.edges.faint.dispose();
  }
}

/** From how far off along X the frame begins to fade, and where it is gone, in. */
const FADE_in = [34, 76] as const;

/** Lets a material fade away along X from the axle: of a long frame the near piece is enough. */
function fading(material: Material, middle: { value: number }): void {
  material.onBeforeCompile = shader => {
    shader.uniforms.middleX = middle;
    shader.vertexShader = shader.vertexShader
      .replace(
        '#include <common>',
        '#include <common>\nvarying float vFromMiddle;\nuniform float middleX;',
      )
      .replace(
        '#include <project_vertex>',
        '#include <project_vertex>\nvFromMiddle = abs((modelMatrix * vec4(transformed, 1.0)).x - middleX);',
      );
    shader.fragmentShader = shader.fragmentShader
      .replace('#include <common>', '#include <common>\nvarying float vFromMiddle;')
      .replace(
        '#include <dithering_fragment>',
        `#include <dithering_fragment>\ngl_FragColor.a *= 1.0 - smoothstep(${FADE_in[0].toFixed(1)}, ${FADE_in[1].toFixed(1)}, vFromMiddle);`,
      );
    // the line's shader has no dithering
    if (!shader.fragmentShader.includes('dithering_fragment')) {
      shader.fragmentShader = shader.fragmentShader.replace(
        '#include <fog_fragment>',
        `#include <fog_fragment>\ngl_FragColor.a *= 1.0 - smoothstep(${FADE_in[0].toFixed(1)}, ${FADE_in[1].toFixed(1)}, vFromMiddle);`,
      );
    }
  };
}

export const colorOf = (look: LookName, theme: Theme): string =>
  LOOKS[look].color[theme === 'light' ? 0 : 1];

function make(look: LookName, showing: Showing, theme: Theme): Material {
  const { sheen } = LOOKS[look];
  const tones = TONES[theme];
  const color = new Color(showing === 'touch' ? tones.touch : colorOf(look, theme));
  // copies have colors of their own, so that single ones can be marked
  if (look === 'lug') color.set('#ffffff');
  if (showing === 'beside') color.lerp(new Color(tones.dye), BESIDE_TINT);
  const seen: Partial<Record<Showing, number>> = {
    ghost: GHOST_OPACITY,
    ride: 0.3,
    beside: BESIDE_OPACITY[theme],
    frame: FRAME_OPACITY[theme],
    faint: FAINT_OPACITY[theme],
  };
  const opacity = seen[showing] ?? 1;
  const shared = {
    color,
    opacity,
    transparent: opacity < 1,
    depthWrite: opacity === 1,
    emissive: new Color(showing === 'chosen' ? tones.dye : '#000000'),
    emissiveIntensity: showing === 'chosen' ? 0.38 : 0,
  };
  if (showing === 'beside') {
    // on dark rubber too
    shared.emissive = new Color(tones.dye);
    shared.emissiveIntensity = 0.45;
  }
  // where both axles have the same surface, the solid one is seen
  const offset =
    showing === 'beside'
      ? { polygonOffset: true, polygonOffsetFactor: 2, polygonOffsetUnits: 8 }
      : {};
  if (showing === 'touch') {
    shared.emissive = new Color(tones.touch);
    shared.emissiveIntensity = theme === 'light' ? 0.25 : 0.12;
  }
  const material = sheen
    ? new MeshStandardMaterial({
        ...shared,
        ...offset,
        roughness: sheen[0],
        metalness: showing === 'touch' ? 0.1 : sheen[1],
        envMapIntensity: ENV_SHARE[theme],
      })
    : // the tone map would sink what is dark into black
      new MeshLambertMaterial({
        ...shared,
        ...offset,
        vertexColors: look === 'lug',
        toneMapped: false,
      });
  return material;
}
