/**
 * Words by which columns and strokes are named in exports, in several languages, without accents and in lower case; a
 * word of several parts counts where all of them stand in the name.
 */
const columnWords = {
  displacement:
    "displacement travel distance position depth deflection extension weg hub pfad auslenkung eindringtiefe deplacement course enfoncement desplazamiento recorrido carrera spostamento corsa przemieszczenie droga verplaatsing 変位 ストローク 位移 行程 перемещение ход",
  force: "force load kraft last effort charge fuerza carga forza carico sila kracht 力 荷重 压力 сила нагрузка усилие",
  time: "time zeit temps tiempo tempo elapsed timestamp tijd czas uhrzeit datum date 時間 时间 время",
  index: "index sample point row messpunkt punkt datensatz numero nr no id 番号 序号 номер",
  contact:
    "contact kontakt contacto contatto continuity conductivity schaltzustand schalter switch electrical 接点 触点 контакт",
  key: "key taste touche tecla tasto toets klawisz キー 键 клавиша",
  cycle: "cycle zyklus ciclo run lauf durchgang durchlauf repetition wiederholung pass cyklus cykl サイクル 周期 цикл",
  stroke:
    "stroke direction richtung phase sens direccion direzione movement bewegung richting kierunek 方向 направление",
  connection:
    "connection link interface verbindung anschluss schnittstelle connexion liaison conexion connessione 接続 连接",
  clip: "clip film video footage aufnahme datei file",
  press: "press shot trial anschlag druck versuch appui pulsacion pressione",
  reader: "reader observer leser ableser auswerter lecteur lector lettore",
  contact_frame: "contact touch hit start kontakt beruhrung contacto toucher",
  mark_frame: "mark marke marker repere marca",
  response_frame:
    "response reaction screen display antwort reaktion bildschirm anzeige reponse ecran respuesta pantalla risposta",
  outcome: "outcome result status ergebnis resultat resultado esito",
  excluded: "excluded exclusion reason ausgeschlossen grund exclu excluido escluso",
  start: "start trigger injection injected begin closing beginn ausloser debut inicio",
  arrival: "arrival arrived received report event end light ankunft empfangen arrivee llegada",
} as const satisfies Readonly<Record<string, string>>;

/** What a column can be taken for. */
export type ColumnRole = keyof typeof columnWords;

const roleWords = new Map(
  Object.entries(columnWords).map(([role, words]) => [role as ColumnRole, new Set(words.split(" "))]),
);

const strokeWords = {
  press:
    "press pressing down downstroke load loading forward in insert ab abwarts runter hin hinweg drucken belasten belastung descente aller appui enfoncement bajada ida carga discesa andata push",
  release:
    "release releasing up upstroke unload unloading return back backward out retract auf aufwarts hoch ruck zuruck ruckweg loslassen entlasten entlastung montee retour relachement subida vuelta descarga salita ritorno pull",
  leave_out: "hold holding dwell pause wait stop idle halten haltezeit warten maintien arret espera pausa attesa",
} as const;

const outcomeWords = {
  ok: "ok good valid yes 1 in ordnung gut gultig bon valide correcto",
  missed: "missed miss none lost verpasst keine fehlt manque perdido",
  double: "double twice doppelt doppel doble",
  unreadable: "unreadable unclear blurred unlesbar unscharf illisible ilegible",
} as const;

/** A text in lower case, without accents and without the unit of measure in brackets at its end. */
export function foldName(text: string): string {
  return text
    .replace(/[[(<{][^[\](){}<>]*[\])>}]\s*$/u, "")
    .normalize("NFD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .trim();
}

/** The words of a name: `displacement_mm` is displacement and mm. */
export function wordsOfName(text: string): readonly string[] {
  return foldName(text)
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== "");
}

/** The roles whose words stand in a column's name, those with more of them first. */
export function rolesOfName(name: string, among: readonly ColumnRole[]): readonly ColumnRole[] {
  const words = wordsOfName(name);
  const compound = foldName(name);
  const hits = (role: ColumnRole): number =>
    words.filter((word) => roleWords.get(role)!.has(word)).length +
    [...roleWords.get(role)!].filter((word) => word.length > 4 && !words.includes(word) && compound.includes(word))
      .length;
  return among
    .map((role) => [role, hits(role)] as const)
    .filter(([, count]) => count > 0)
    .sort((a, b) => b[1] - a[1] || among.indexOf(a[0]) - among.indexOf(b[0]))
    .map(([role]) => role);
}

/** The stroke that a word names; undefined where it names none. */
export function strokeOfWord(text: string): keyof typeof strokeWords | undefined {
  return lookUp(strokeWords, text);
}

/** The outcome that a word names; undefined where it names none. */
export function outcomeOfWord(text: string): keyof typeof outcomeWords | undefined {
  return lookUp(outcomeWords, text);
}

function lookUp<K extends string>(table: Readonly<Record<K, string>>, text: string): K | undefined {
  const word = foldName(text);
  return (Object.keys(table) as K[]).find((name) => table[name].split(" ").includes(word));
}
