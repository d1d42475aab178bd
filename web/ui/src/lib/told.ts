// Written from the program's types by: go test ./web -run TestTypesOfThePage -write-types

export interface Asked {
  lane: string;
  seq: number;
  verb: string;
  boats: string[] | null;
  question: unknown;
  want: string[] | null;
  units: string;
  level: number;
  drafts: Record<string, string>;
}

export interface BalanceBudget {
  about_m: Point;
  rows: BalanceBudgetRow[] | null;
  righting_moment_Nm: number;
  heeling_moment_Nm: number;
}

export interface BalanceBudgetRow {
  part: string;
  kind: string;
  moment_Nm: number;
  arm_m: number;
  force_N: number;
}

export interface BalanceCentre {
  foil: string;
  rule_of_thumb_m: Point | null;
  load_weighted_m: Point | null;
  line_of_action: BalanceLine | null;
  couple_Nm: number;
  distance_from_line_m: number;
  force_N: Vec;
}

export interface BalanceLine {
  point_m: Point;
  direction: Vec;
}

export interface BalanceWeightRow {
  part: string;
  mass_kg: number;
  place_m: Point;
  righting_moment_Nm: number;
}

export interface Changed {
  file: string;
  version: string;
}

export interface CompareDifference {
  figure: string;
  unit: string;
  values: (number | null)[] | null;
  changes: (number | null)[] | null;
  changes_share: (number | null)[] | null;
}

export interface CompareResolved {
  forward_N: number;
  leeward_N: number;
  up_N: number;
}

export interface CompareResult {
  base_index: number;
  base: string;
  carried_at_m: number;
  model_factors: string;
  boats: (TrimResult | null)[] | null;
  differences: CompareDifference[] | null;
  balance_sheet: CompareSheetDifference[] | null;
  lift_shifts: (CompareShift | null)[] | null;
  fastest_index: number;
}

export interface CompareSheetDifference {
  part: string;
  cause: string;
  forces: (CompareResolved | null)[] | null;
  changes: (CompareResolved | null)[] | null;
}

export interface CompareShift {
  foil: string;
  height_m: number;
  rule_of_thumb_shift_m: number | null;
  load_weighted_shift_m: number | null;
  line_of_action_shift_m: number | null;
}

export interface Field {
  path: string;
  part: string;
  row: string;
  label: string;
  help: string;
  kind: string;
  example: string;
  options: string[] | null;
  text: string;
  basis: string;
  times: string;
  plus: string;
  file: string;
  line: number;
  column: number;
}

export interface Figure {
  value: number;
  text: string;
}

export interface FigureAngleAt {
  angle: number;
  speed: number;
  at: string;
  reads: string;
}

export interface FigureAnglesPart {
  boats: string[] | null;
  axis: string;
  winds: FigureWindCurve[] | null;
  gains: FigureGainCurve[] | null;
  gain_axis: string;
}

export interface FigureBand {
  level: string;
  from: FigureNumber;
  to: FigureNumber;
}

export interface FigureBarRow {
  name: string;
  rank: string;
  bars: (FigureNumber | null)[] | null;
}

export interface FigureBarsPart {
  axis: string;
  boats: string[] | null;
  rows: FigureBarRow[] | null;
}

export interface FigureBestAt {
  angle: number;
  speed: number;
  at: string;
  reads: string;
  name: string;
  text: string;
  from: number;
  to: number;
}

export interface FigureCausedStep {
  name: string;
  at: number;
  text: string;
  error: number;
  said: string;
}

export interface FigureChart {
  kind: string;
  title: string;
  under: string;
  summary: string;
  foot: string[] | null;
  level: string;
  width?: number;
  table: FigureTable;
  front?: FigureFrontPart;
  waterfall?: FigureWaterfallPart;
  spread?: FigureSpreadPart;
  angles?: FigureAnglesPart;
  bars?: FigureBarsPart;
  margins?: FigureMarginsPart;
  tornado?: FigureTornadoPart;
  winds?: FigureWindsPart;
  scene?: FigureScenePart;
}

export interface FigureCrossAt {
  angle: number;
  text: string;
}

export interface FigureFrontAxis {
  at: [number, number];
  direction: [number, number];
}

export interface FigureFrontBody {
  at: [number, number];
  diameter: number;
}

export interface FigureFrontLever {
  from: [number, number];
  to: [number, number];
  text: string;
  between: string;
}

export interface FigureFrontLine {
  foil: string;
  line: [number, number][] | null;
  thick: number[] | null;
}

export interface FigureFrontMark {
  kind: string;
  at: [number, number];
  name: string;
  text: string;
}

export interface FigureFrontPart {
  boat: string;
  hulls: ([number, number][] | null)[] | null;
  pieces: FigureFrontLine[] | null;
  bodies: FigureFrontBody[] | null;
  spars: [[number, number], [number, number]][] | null;
  luffs: [[number, number], [number, number]][] | null;
  weights: FigureFrontMark[] | null;
  forces: FigureFrontPull[] | null;
  centres: FigureFrontMark[] | null;
  line?: FigureFrontAxis;
  lever?: FigureFrontLever;
  detail: string;
  detail_called: string;
  wings: FigureFrontWing[] | null;
  wings_text: string;
  crest: number;
  crest_text: string;
  force_unit: string;
  newtons_per_unit: number;
}

export interface FigureFrontPull {
  kind: string;
  at: [number, number];
  force: [number, number];
  name: string;
  text: string;
}

export interface FigureFrontWing {
  at: [number, number][] | null;
  off: [number, number][] | null;
}

export interface FigureGainAt {
  angle: number;
  at: number;
  text: string;
}

export interface FigureGainCurve {
  name: string;
  points: FigureGainAt[] | null;
}

export interface FigureMarginRow {
  name: string;
  at: number | null;
  stand: string;
  lower: string;
  upper: string;
  value: string;
  room: string;
  price: string;
}

export interface FigureMarginsPart {
  boat: string;
  rows: FigureMarginRow[] | null;
}

export interface FigureNamedNumber {
  name: string;
  at: number;
  text: string;
}

export interface FigureNumber {
  at: number;
  text: string;
}

export interface FigureSceneAstray {
  at: [number, number, number];
  force: [number, number, number];
  moment: [number, number, number];
  text: string;
  words: string;
}

export interface FigureSceneAxis {
  at: [number, number, number];
  direction: [number, number, number];
}

export interface FigureSceneBody {
  at: [number, number, number];
  length: number;
  diameter: number;
}

export interface FigureSceneCurve {
  name: string;
  at: [number, number, number][] | null;
  off: [number, number, number][] | null;
  peak: number;
  text: string;
}

export interface FigureSceneFigure {
  name: string;
  text: string;
  later?: boolean;
}

export interface FigureSceneHandle {
  name: string;
  hold: string;
  unit: string;
  value: number;
  lower: number;
  upper: number;
  step: number;
  state: string;
  text: string;
  range: string;
  spoken: string;
  place?: FigureScenePlace;
}

export interface FigureSceneHull {
  sections: ([number, number, number][] | null)[] | null;
  deck: [number, number, number][] | null;
  water: [number, number, number][] | null;
}

export interface FigureSceneLever {
  from: [number, number, number];
  to: [number, number, number];
  text: string;
  between: string;
}

export interface FigureSceneMark {
  kind: string;
  at: [number, number, number];
  name: string;
  text: string;
}

export interface FigureScenePart {
  boat: string;
  length: number;
  way: string;
  says: string;
  hulls: FigureSceneHull[] | null;
  pieces: FigureScenePiece[] | null;
  bodies: FigureSceneBody[] | null;
  weights: FigureSceneWeight[] | null;
  axes: [[number, number, number], [number, number, number], [number, number, number]];
  spars: [[number, number, number], [number, number, number]][] | null;
  sails: FigureSceneSail[] | null;
  forces: FigureScenePull[] | null;
  largest: number;
  centres: FigureSceneMark[] | null;
  called: string;
  line?: FigureSceneAxis;
  levers: FigureSceneLever[] | null;
  curves: FigureSceneCurve[] | null;
  astray?: FigureSceneAstray;
  figures: FigureSceneFigure[] | null;
  handles: FigureSceneHandle[] | null;
  crest: number;
  waves: number;
  crests: string;
  held: StudyHeldState;
}

export interface FigureScenePiece {
  foil: string;
  line: [number, number, number][] | null;
  leading: [number, number, number][] | null;
  trailing: [number, number, number][] | null;
  thick: number[] | null;
  wet: boolean[] | null;
}

export interface FigureScenePlace {
  at: [number, number, number];
  rate: [number, number, number];
  axis: [number, number, number];
  pivot: [number, number, number];
}

export interface FigureScenePull {
  kind: string;
  at: [number, number, number];
  force: [number, number, number];
  name: string;
  front: string;
  side: string;
  top: string;
  whole: string;
}

export interface FigureSceneSail {
  name: string;
  tack: [number, number, number];
  head: [number, number, number];
  clew: [number, number, number];
  centre: [number, number, number];
}

export interface FigureSceneWeight {
  kind: string;
  at: [number, number, number];
  name: string;
  text: string;
  file: [number, number, number];
  texts: [string, string, string];
  moved: [boolean, boolean, boolean];
  spoken: string;
}

export interface FigureSpreadBoat {
  name: string;
  bands: FigureBand[] | null;
  middle: FigureNumber;
}

export interface FigureSpreadPart {
  axis: string;
  pairs: FigureSpreadRow[] | null;
  scale: string;
  boats: FigureSpreadBoat[] | null;
}

export interface FigureSpreadRow {
  first: string;
  second: string;
  places: [number, number];
  dots: number[] | null;
  bands: FigureBand[] | null;
  middle: FigureNumber;
  chances: [string, string];
  call: string;
  dots_say: string;
}

export interface FigureTable {
  head: string[] | null;
  rows: (string[] | null)[] | null;
}

export interface FigureTornadoPart {
  axis: string;
  rows: FigureTornadoRow[] | null;
}

export interface FigureTornadoRow {
  name: string;
  says: string;
  low: FigureNumber | null;
  high: FigureNumber | null;
}

export interface FigureWarnedRun {
  from: number;
  to: number;
  why: string;
}

export interface FigureWaterfallPart {
  axis: string;
  first: FigureNamedNumber;
  last: FigureNamedNumber;
  whole: FigureNumber;
  steps: FigureCausedStep[] | null;
}

export interface FigureWayRun {
  from: number;
  to: number;
  name: string;
}

export interface FigureWindAt {
  wind: FigureNumber;
  value: FigureNumber | null;
  bands: FigureBand[] | null;
}

export interface FigureWindCurve {
  boat: number;
  wind: string;
  name: string;
  runs: (FigureAngleAt[] | null)[] | null;
  best: FigureBestAt[] | null;
  gaps: [number, number][] | null;
  ways: FigureWayRun[] | null;
  crossovers: FigureCrossAt[] | null;
  warned: FigureWarnedRun[] | null;
}

export interface FigureWindLine {
  name: string;
  points: FigureWindAt[] | null;
}

export interface FigureWindsPart {
  axis: string;
  across: string;
  boats: FigureWindLine[] | null;
  gain_axis: string;
  gains: FigureWindLine[] | null;
}

export interface Figures {
  values: number[] | null;
}

export interface Heard {
  event: string;
  body: unknown;
}

export interface HullReport {
  part: string;
  weight_carried_N: number;
  wetted_area_m2: number;
  wetted_length_m: number;
  froude_number: number;
  friction_N: number;
  residuary_N: number;
  residuary_from: string;
}

export interface HullRest {
  volume_m3: number;
  waterline_length_m: number;
  waterline_beam_m: number;
  draught_m: number;
  wetted_area_m2: number;
  centre_of_buoyancy_ahead_of_middle: number;
  prismatic_coefficient: number;
  length_over_cube_root_of_displacement: number;
  beam_over_draught: number;
  length_over_beam: number;
}

export interface JobAsked {
  id: string;
  sure: boolean;
  beside: string[] | null;
}

export interface JobRequest {
  verb: string;
  boats: string[] | null;
  question: unknown;
}

export interface JobState {
  id: string;
  verb: string;
  boats: StudySource[] | null;
  words: string;
  asked: string;
  standing: string;
  done: number;
  of: number;
  left_s: number | null;
  says: string;
  so_far: string;
  partial: number;
  verdict?: string;
  problem?: string;
  took_s: number;
  changed: string[] | null;
  question: unknown;
}

export interface Keep {
  folder: string;
  files: Kept[] | null;
}

export interface Kept {
  file: string;
  kind: string;
  boat: string;
}

export interface Listed {
  file: string;
  boat: string;
}

export interface Moving {
  from: string;
  to: string;
  boat: string;
}

export interface OddsAnchored {
  boat: string;
  words: string;
  true_wind_speed_mps: number;
  observed_speed_mps: number;
  observed_deviation_mps: number;
  speed_before_mps: OddsDistribution;
  speed_after_mps: OddsDistribution;
  score: number | null;
  effective_samples: number;
  used: string;
  factors: OddsMoved[] | null;
  boats_before: OddsFigure[] | null;
  pairs_before: OddsPair[] | null;
}

export interface OddsBand {
  true_wind_speed_mps: number;
  failed: number;
  boats: OddsFigure[] | null;
  pairs: OddsPair[] | null;
}

export interface OddsBar {
  input: string;
  of: string;
  at_p10_mps: number | null;
  at_p90_mps: number | null;
}

export interface OddsDistribution {
  mean: number | null;
  deviation: number | null;
  mean_error: number | null;
  p2_5: number | null;
  p5: number | null;
  p10: number | null;
  p25: number | null;
  p50: number | null;
  p75: number | null;
  p90: number | null;
  p95: number | null;
  p97_5: number | null;
}

export interface OddsFigure {
  name: string;
  likely_mps: number | null;
  failed: number;
  cannot_be: number;
  chance_sails: number;
  progress_mps: OddsDistribution;
}

export interface OddsFit {
  of: string;
  samples: number;
  terms: number;
  unexplained: number;
}

export interface OddsInput {
  name: string;
  kind: string;
  says: string;
  where: string;
  basis: string;
  boats: string[] | null;
  of: string;
  first_order: number;
  first_order_low: number;
  first_order_high: number;
  total: number;
  total_low: number;
  total_high: number;
  shapley: number;
  effect_mps: number;
  others: OddsShare[] | null;
}

export interface OddsMoved {
  input: string;
  kind: string;
  unit: string;
  mean_before: number;
  deviation_before: number;
  mean_after: number;
  deviation_after: number;
}

export interface OddsPair {
  first: string;
  second: string;
  likely_difference_mps: number | null;
  difference_mps: OddsDistribution;
  chance_first_faster: number;
  chance_second_faster: number;
  chance_neither_sails: number;
  chance_error: number;
  compared: number;
  deviation_if_independent_mps: number;
  call: string;
  settle?: OddsSettle;
}

export interface OddsResult {
  seed: number;
  samples: number;
  failed: number;
  aim: string;
  true_wind_speed_mps: number;
  confidence: number;
  until?: number;
  boats: OddsFigure[] | null;
  pairs: OddsPair[] | null;
  inputs: OddsInput[] | null;
  surrogates: OddsFit[] | null;
  tornado?: OddsBar[];
  bands?: OddsBand[];
  anchor?: OddsAnchored;
  starts?: OddsStarts;
  warnings: string[] | null;
}

export interface OddsSettle {
  input: string;
  kind: string;
  first_order: number;
  deviation_mps: number;
  deviation_left_mps: number;
  measure?: string;
  measure_first_order?: number;
  measure_deviation_left_mps?: number;
}

export interface OddsShare {
  of: string;
  first_order: number;
  first_order_low: number;
  first_order_high: number;
  total: number;
  total_low: number;
  total_high: number;
  shapley: number;
  effect_mps: number;
}

export interface OddsStarts {
  checked: number;
  largest_loss_share: number;
  mean_loss_share: number;
}

export interface Point {
  x: number;
  y: number;
  z: number;
}

export interface PolarActive {
  name: string;
  value: number;
  unit: string;
  end: string;
}

export interface PolarBandEnd {
  true_wind_angle_rad: number;
  mode: string;
  set: string;
  speed_mps: number;
  vmg_mps: number;
  lost_progress: number;
  why: string;
}

export interface PolarBest {
  true_wind_angle_rad: number;
  answer: string;
  mode: string;
  set: string;
  speed_mps: number;
  vmg_mps: number;
  apparent_wind_speed_mps: number;
  apparent_wind_angle_rad: number;
  leeway_rad: number;
  heel_rad: number;
  pitch_rad: number;
  ride_height_m: number;
  controls: TrimSetting[] | null;
  active: PolarActive[] | null;
  warnings: string[] | null;
  reason?: TrimReason;
  band_from: PolarBandEnd | null;
  band_to: PolarBandEnd | null;
}

export interface PolarBranch {
  mode: string;
  set: string;
  speed_mps: number;
}

export interface PolarCrossover {
  true_wind_angle_rad: number;
  within_rad: number;
  below: PolarBranch;
  above: PolarBranch;
}

export interface PolarGap {
  first_rad: number;
  last_rad: number;
  from_rad: number | null;
  to_rad: number | null;
  words: string;
  limit: string;
}

export interface PolarPoint {
  true_wind_angle_rad: number;
  answer: string;
  mode: string;
  set: string;
  speed_mps: number;
  vmg_mps: number;
  apparent_wind_speed_mps: number;
  apparent_wind_angle_rad: number;
  leeway_rad: number;
  heel_rad: number;
  pitch_rad: number;
  ride_height_m: number;
  controls: TrimSetting[] | null;
  active: PolarActive[] | null;
  warnings: string[] | null;
  reason?: TrimReason;
}

export interface PolarResult {
  boat: string;
  wind_from: string;
  winds: PolarWind[] | null;
}

export interface PolarWind {
  true_wind_speed_mps: number;
  points: PolarPoint[] | null;
  windward: PolarBest;
  leeward: PolarBest;
  crossovers: PolarCrossover[] | null;
  gaps: PolarGap[] | null;
}

export interface Refused {
  error: string;
  disk: Text | null;
}

export interface ReportAnswer {
  sentence: ReportClause[] | null;
  boats: string[] | null;
  base_index: number;
  groups: ReportGroup[] | null;
  refusals: ReportNo[] | null;
}

export interface ReportClause {
  part: string;
  phrases: ReportPhrase[] | null;
}

export interface ReportGroup {
  name: string;
  rows: ReportSideBySide[] | null;
}

export interface ReportInput {
  name: string;
  values: string[] | null;
}

export interface ReportNo {
  boat: number;
  words: string;
  attempt: string;
  open: string[] | null;
  hint: string;
}

export interface ReportPhrase {
  text: string;
  boat?: number;
  chart?: string;
  figure?: string;
}

export interface ReportRest {
  name: string;
  basis: string;
  values: string[] | null;
  source: string;
}

export interface ReportSideBySide {
  figure: string;
  name: string;
  unit: string;
  values: string[] | null;
  changes: string[] | null;
  shares: string[] | null;
  working: ReportWorking | null;
}

export interface ReportWorking {
  formula: string;
  says: string;
  sources: string[] | null;
  inputs: ReportInput[] | null;
  rests: ReportRest[] | null;
}

export interface RuleResult {
  rule: string;
  file: string;
  figures: string;
  boat: string;
  boat_file: string;
  limits: RuleRow[] | null;
  broken: number;
}

export interface RuleRow {
  limit: string;
  measure: string;
  axis?: string;
  part: string;
  at?: string;
  value: number;
  lower: number | null;
  upper: number | null;
  unit: string;
  margin: number;
  verdict: string;
  where: string;
  boat_where: string;
}

export interface SailReport {
  name: string;
  lift_N: number;
  induced_drag_N: number;
  section_drag_N: number;
  lift_coefficient: number;
  largest_lift: number;
  wind_speed_mps: number;
  wind_angle_rad: number;
  incidence_rad: number;
  twist_rad: number;
  flatten: number;
  sheeting_angle_rad: number;
  sheet_load_N: number;
  centre_of_effort_m: Point;
  mast_foot_side_N: number;
  mast_foot_ahead_N: number;
  mast_head_side_N: number;
  mast_head_ahead_N: number;
  largest_lift_margin: number;
  least_loading: number;
  beyond_table?: string;
  strips: SailStripReport[] | null;
}

export interface SailStripReport {
  share: number;
  height_m: number;
  chord_m: number;
  wind_speed_mps: number;
  incidence_rad: number;
  induced_angle_rad: number;
  circulation_m2ps: number;
  lift_coefficient: number;
  largest_lift_margin: number;
}

export interface Saving {
  file: string;
  text: string;
  base: string;
}

export interface Setting {
  file: string;
  path: string;
  value: string;
}

export interface StudyAcross {
  y: number;
  z: number;
}

export interface StudyAssumption {
  path: string;
  value: string;
  basis: string;
}

export interface StudyBoatLevers {
  boat: string;
  mode: string;
  wind_from: string;
  leeway_rad: number;
  heel_rad: number;
  pitch_rad: number;
  ride_height_m: number;
  datum_height_m: number;
  controls: TrimSetting[] | null;
  notes: string[] | null;
  pieces: StudyPieceGeometry[] | null;
  wetted_area_m2: number;
  weight_N: number;
  centre_of_gravity_m: Point;
  foil: string;
  rule_of_thumb_m: Point | null;
  lever_m: number;
  righting_moment_Nm: number;
  weights: BalanceWeightRow[] | null;
}

export interface StudyBodyShape {
  name: string;
  middle_m: Point;
  length_m: number;
  diameter_m: number;
}

export interface StudyCheck {
  rule?: string;
  rule_fingerprint?: string;
}

export interface StudyCheckResult {
  files: StudyFileCheck[] | null;
  differences: StudyFileDifference[] | null;
  rule?: (RuleResult | null)[];
}

export interface StudyCompare {
  true_wind_speeds_mps: number[] | null;
  true_wind_angles_rad?: number[];
  aim: string;
  wind_from: string;
  mode?: string;
  set?: string;
  holds?: StudySetting[];
  relaxed?: string[];
  carried_at_m?: number;
  strips: number;
  rows: number;
  waves: string;
  wave_height_m?: number;
  wave_period_s?: number;
  water_temperature_K: number;
  salinity: number;
  air_temperature_K: number;
  wind_profile: string;
  base?: string;
}

export interface StudyFault {
  where: string;
  path: string;
  problem: string;
  hint?: string;
}

export interface StudyFileChange {
  path: string;
  from: string;
  to: string;
}

export interface StudyFileCheck {
  file: string;
  boat: string;
  class: string;
  figures: string;
  mass_kg: number;
  length_m: number;
  foils: string[] | null;
  modes: string[] | null;
  sails: string[] | null;
  sets: string[] | null;
  controls: string[] | null;
  pulled: string[] | null;
  faults: StudyFault[] | null;
  afloat: StudyFloating | null;
  assumptions: StudyAssumption[] | null;
  unknowns: StudyUnknown[] | null;
}

export interface StudyFileDifference {
  from: string;
  to: string;
  changes: StudyFileChange[] | null;
}

export interface StudyFloating {
  heel_rad: number;
  pitch_rad: number;
  height_m: number;
  draught_m: number;
  waterline_m: number;
  metacentric_height_m: number;
  share_on_hulls: number;
  hulls: HullRest[] | null;
  residual: number;
  missing?: string;
}

export interface StudyFoilShape {
  name: string;
  pieces: StudyPieceShape[] | null;
}

export interface StudyHandle {
  name: string;
  hold: string;
  unit: string;
  value: number;
  lower: number;
  upper: number;
  step: number;
  state: string;
  part?: string;
  place?: StudyPlace;
}

export interface StudyHeld {
  states: StudyHeldState[] | null;
  dragged?: boolean;
  strips: number;
  rows: number;
  waves: string;
  wave_height_m?: number;
  wave_period_s?: number;
  water_temperature_K: number;
  salinity: number;
  air_temperature_K: number;
  wind_profile: string;
}

export interface StudyHeldResult {
  view: StudyViewResult;
  imbalance: StudyImbalance;
  notes: string[] | null;
}

export interface StudyHeldState {
  heel_to_leeward_rad: number;
  pitch_rad: number;
  leeway_rad: number;
  ride_height_m?: number;
  wind_from: string;
  mode?: string;
  settings?: StudySetting[];
  speed_mps: number;
  true_wind_speed_mps: number;
  true_wind_angle_rad: number;
  set?: string;
  about_m?: StudyAcross;
}

export interface StudyHullShape {
  name: string;
  sections_m: (Point[] | null)[] | null;
  deck_m: Point[] | null;
  water_m: Point[] | null;
}

export interface StudyImbalance {
  about_m: Point;
  force_N: Vec;
  moment_Nm: Vec;
  shares: [number, number, number, number, number, number];
  ways: StudyWay[] | null;
}

export interface StudyLevers {
  heel_to_leeward_rad: number;
  pitch_rad: number;
  leeway_rad: number;
  ride_height_m?: number;
  wind_from: string;
  mode?: string;
  settings?: StudySetting[];
  base?: string;
}

export interface StudyLeversResult {
  base_index: number;
  base: string;
  boats: StudyBoatLevers[] | null;
  differences: CompareDifference[] | null;
}

export interface StudyOdds {
  true_wind_speeds_mps: number[] | null;
  true_wind_angles_rad?: number[];
  aim: string;
  wind_from: string;
  mode?: string;
  set?: string;
  holds?: StudySetting[];
  relaxed?: string[];
  carried_at_m?: number;
  strips: number;
  rows: number;
  waves: string;
  wave_height_m?: number;
  wave_period_s?: number;
  water_temperature_K: number;
  salinity: number;
  air_temperature_K: number;
  wind_profile: string;
  true_wind_speed_says?: string;
  water_temperature_says?: string;
  air_temperature_says?: string;
  winds_mps?: number[];
  samples: number;
  seed: number;
  until?: number;
  confidence: number;
  anchor?: string;
  tornado?: boolean;
}

export interface StudyPieceGeometry {
  part: string;
  piece: string;
  wet_plan_area_m2: number;
  dry_plan_area_m2: number;
  wetted_area_m2: number;
  wet_span_m: number;
  wet_area_centroid_m: Point | null;
  tip_depth_m: number | null;
  role: string;
}

export interface StudyPieceShape {
  name: string;
  line_m: Point[] | null;
  leading_m: Point[] | null;
  trailing_m: Point[] | null;
  thickness_m: number[] | null;
  wet: boolean[] | null;
}

export interface StudyPlace {
  at_m: Point;
  rate_m: Vec;
  axis: Vec;
  pivot_m: Point;
}

export interface StudyPolar {
  true_wind_speeds_mps: number[] | null;
  true_wind_angles_rad?: number[];
  aim: string;
  wind_from: string;
  mode?: string;
  set?: string;
  holds?: StudySetting[];
  relaxed?: string[];
  carried_at_m?: number;
  strips: number;
  rows: number;
  waves: string;
  wave_height_m?: number;
  wave_period_s?: number;
  water_temperature_K: number;
  salinity: number;
  air_temperature_K: number;
  wind_profile: string;
  take_off?: boolean;
}

export interface StudyResult {
  version: string;
  kernel: string;
  fingerprint: string;
  verb: string;
  boats: StudySource[] | null;
  question: unknown;
  verdict: string;
  results: unknown;
  caution: string;
}

export interface StudySailShape {
  name: string;
  tack_m: Point;
  head_m: Point;
  clew_m: Point;
  centre_of_effort_m: Point;
}

export interface StudySetting {
  name: string;
  value: string;
}

export interface StudyShape {
  hulls: StudyHullShape[] | null;
  foils: StudyFoilShape[] | null;
  bodies: StudyBodyShape[] | null;
  weights: StudyWeightSpot[] | null;
  spars: StudySparShape[] | null;
  sails: StudySailShape[] | null;
}

export interface StudySource {
  file: string;
  name: string;
  fingerprint: string;
  figures: string;
}

export interface StudySpan {
  part: string;
  piece: string;
  strips: StudyStrip[] | null;
}

export interface StudySparShape {
  name: string;
  bottom_m: Point;
  top_m: Point;
}

export interface StudyStrip {
  share: number;
  place_m: Point;
  force_N: Vec;
  depth_m: number;
  chord_m: number;
  circulation_m2ps: number;
  lift_coefficient: number;
  largest_lift_coefficient: number;
  cavitation_margin: number | null;
}

export interface StudyTrim {
  true_wind_speeds_mps: number[] | null;
  true_wind_angles_rad?: number[];
  aim: string;
  wind_from: string;
  mode?: string;
  set?: string;
  holds?: StudySetting[];
  relaxed?: string[];
  carried_at_m?: number;
  strips: number;
  rows: number;
  waves: string;
  wave_height_m?: number;
  wave_period_s?: number;
  water_temperature_K: number;
  salinity: number;
  air_temperature_K: number;
  wind_profile: string;
  about_m?: StudyAcross;
  per?: boolean;
  afloat?: boolean;
}

export interface StudyUnknown {
  file: string;
  name: string;
  value: string;
  basis: string;
  where: string;
}

export interface StudyView {
  true_wind_speeds_mps: number[] | null;
  true_wind_angles_rad?: number[];
  aim: string;
  wind_from: string;
  mode?: string;
  set?: string;
  holds?: StudySetting[];
  relaxed?: string[];
  carried_at_m?: number;
  strips: number;
  rows: number;
  waves: string;
  wave_height_m?: number;
  wave_period_s?: number;
  water_temperature_K: number;
  salinity: number;
  air_temperature_K: number;
  wind_profile: string;
  near?: boolean;
  first?: boolean;
}

export interface StudyViewResult {
  trim: TrimResult | null;
  searched?: string;
  dragged?: boolean;
  shape: StudyShape;
  spans: StudySpan[] | null;
  handles: StudyHandle[] | null;
  held: StudyHeldState;
}

export interface StudyWay {
  equation: string;
  words: string;
  share: number;
}

export interface StudyWays {
  file: string;
  boat: string;
  modes: StudyWaysMode[] | null;
  sets: string[] | null;
  controls: StudyWaysControl[] | null;
}

export interface StudyWaysControl {
  name: string;
  range: string;
}

export interface StudyWaysMode {
  name: string;
  sets: string[] | null;
}

export interface StudyWeightSpot {
  name: string;
  mass_kg: number;
  place_m: Point;
  at_m: Point;
  moved: [boolean, boolean, boolean];
}

export interface StudyWhy {
  true_wind_speeds_mps: number[] | null;
  true_wind_angles_rad?: number[];
  aim: string;
  wind_from: string;
  mode?: string;
  set?: string;
  holds?: StudySetting[];
  relaxed?: string[];
  carried_at_m?: number;
  strips: number;
  rows: number;
  waves: string;
  wave_height_m?: number;
  wave_period_s?: number;
  water_temperature_K: number;
  salinity: number;
  air_temperature_K: number;
  wind_profile: string;
  figure: string;
  groups?: WhyGroup[];
  pairs?: boolean;
  orders?: number;
  seed?: number;
  cannot_sail?: string;
}

export interface Text {
  file: string;
  text: string;
  version: string;
}

export interface Told {
  lane: string;
  seq: number;
  verdict?: string;
  charts?: (FigureChart | null)[];
  missing?: string[];
  result?: StudyResult;
  answer?: ReportAnswer;
  text?: string;
  figure?: Figure;
  ways?: StudyWays[];
  list?: Figures;
  job?: JobState;
  jobs?: JobState[];
  fields?: Field[];
  error?: string;
  took_s: number;
}

export interface TrimCarried {
  height_m: number;
  side_force_N: number;
  share_of_weight: number;
}

export interface TrimCavitationMargin {
  share: number;
  depth_m: number;
  place_m: Point;
  cavitation_number: number;
  pressure_peak: number;
  margin: number;
  first_cavitation_mps: number | null;
}

export interface TrimEffort {
  starts: number;
  converged: number;
  evaluations: number;
  starts_at_the_answer: number;
}

export interface TrimHinge {
  part: string;
  hinge_moment_Nm: number;
}

export interface TrimLiftMargin {
  share: number;
  depth_m: number;
  place_m: Point;
  lift_coefficient: number;
  largest_lift_coefficient: number;
  margin: number;
}

export interface TrimLimitRow {
  name: string;
  value: number;
  lower: number | null;
  upper: number | null;
  unit: string;
  margin: number;
  active: boolean;
  price_mps_per_unit: number;
}

export interface TrimLoad {
  part: string;
  piece?: string;
  item: string;
  force_N: Vec;
  moment_Nm: Vec;
  about_m: Point;
}

export interface TrimMargin {
  part: string;
  piece: string;
  largest_lift: TrimLiftMargin | null;
  cavitation: TrimCavitationMargin | null;
  ventilation: TrimVentilationMargin | null;
  tip: TrimTipDepth | null;
}

export interface TrimOptimum {
  mode: string;
  set: string;
  tips?: string;
  speed_mps: number;
  vmg_mps: number;
  heel_rad: number;
  starts: number;
  left_early?: boolean;
}

export interface TrimPerRow {
  figure: string;
  where: string;
  says: string;
  step: string;
  gain_mps_per_step: number;
}

export interface TrimReason {
  words: string;
  limit?: string;
  shortfalls: TrimShortfall[] | null;
  tried: string[] | null;
}

export interface TrimResult {
  boat: string;
  answer: string;
  aim: string;
  mode: string;
  set: string;
  true_wind_speed_mps: number;
  true_wind_angle_rad: number;
  wind_from: string;
  sea: TrimSeaRoom | null;
  speed_mps: number;
  vmg_mps: number;
  leeway_rad: number;
  heel_rad: number;
  pitch_rad: number;
  ride_height_m: number;
  datum_height_m: number;
  controls: TrimSetting[] | null;
  apparent_wind_speed_mps: number;
  apparent_wind_angle_rad: number;
  aero_drag_angle_rad: number;
  hydro_drag_angle_rad: number;
  weight_N: number;
  loads: TrimLoad[] | null;
  residual_force_N: Vec;
  residual_moment_Nm: Vec;
  righting_moment_Nm: number;
  heeling_moment_Nm: number;
  budget: BalanceBudget;
  centres: BalanceCentre[] | null;
  side_force_carried: TrimCarried | null;
  side_force_carried_N: number;
  side_force_carried_missing?: string;
  drag_N: Record<string, number>;
  wetted_area: TrimWetPart[] | null;
  carrying: string;
  share_on_hulls: number;
  hulls: HullReport[] | null;
  sails: SailReport[] | null;
  margins: TrimMargin[] | null;
  hinge_moments: TrimHinge[] | null;
  limits: TrimLimitRow[] | null;
  warnings: string[] | null;
  closing_set: string[] | null;
  closing_set_condition: number;
  other_optima: TrimOptimum[] | null;
  search: TrimEffort;
  reason?: TrimReason;
  per?: TrimPerRow[];
}

export interface TrimSeaRoom {
  wave_height_m: number;
  wave_period_s: number;
  wave_length_m: number;
  encounter_period_s: number | null;
  waves: string;
  share_not_followed: number;
  amplitude_m: number;
  room_m: number;
}

export interface TrimSetting {
  name: string;
  called: string;
  value: number;
  unit: string;
  lower: number;
  upper: number;
  state: string;
  price_mps_per_unit: number;
}

export interface TrimShortfall {
  name: string;
  amount: number;
  unit: string;
}

export interface TrimTipDepth {
  depth_m: number;
  chords: number;
}

export interface TrimVentilationMargin {
  share: number;
  depth_m: number;
  place_m: Point;
  incidence_rad: number;
  boundary_rad: number;
  margin_rad: number;
}

export interface TrimWetPart {
  part: string;
  piece: string;
  wetted_area_m2: number;
  plan_area_m2: number;
}

export interface Vec {
  x: number;
  y: number;
  z: number;
}

export interface WhyChange {
  path: string;
  from: string;
  to: string;
  of: string;
}

export interface WhyEvaluation {
  method: string;
  mixed_boats: number;
  trims: number;
  mended: number;
  orders: number;
  seed: number;
}

export interface WhyGroup {
  name: string;
  holds: string[] | null;
}

export interface WhyLedger {
  state: string;
  rows: WhyRow[] | null;
  missing: string[] | null;
}

export interface WhyMerged {
  name: string;
  causes: string[] | null;
  why: string;
}

export interface WhyPair {
  one: string;
  other: string;
  interaction: number;
}

export interface WhyPart {
  name: string;
  part: number;
  part_error: number;
  changes: WhyChange[] | null;
}

export interface WhyResult {
  figure: string;
  unit: string;
  first: WhySide;
  second: WhySide;
  difference: number | null;
  aim: string;
  true_wind_speed_mps: number;
  wind_from: string;
  carried_at_m: number;
  causes: WhyPart[] | null;
  pairs: WhyPair[] | null;
  figures: WhyRow[] | null;
  ledger: WhyLedger | null;
  merged: WhyMerged[] | null;
  cannot_sail: WhyStandIn[] | null;
  work: WhyEvaluation;
  boats: [TrimResult | null, TrimResult | null];
}

export interface WhyRow {
  figure: string;
  unit: string;
  first: number;
  second: number;
  difference: number;
  parts: number[] | null;
  part_errors: number[] | null;
}

export interface WhySide {
  boat: string;
  answer: string;
  value: number | null;
}

export interface WhyStandIn {
  causes: string[] | null;
  why: string;
  value: number;
  value_of: string;
}

// What is shown where the link says nothing; the program looks for its answers as it starts.
export const opening = {"boats":2,"tws":8.745555555555557,"from":"port"} as const;
