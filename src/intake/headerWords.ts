/** Words of headings in many languages as the English words that the patterns of headings are written in. */
import { plainLetters } from "./plainLetters.ts";

/** A heading in lower case and plain letters, word by word in English: "Gewicht pro Knäuel" is "weight per ball". */
export function englishHeading(heading: string): string {
  return plainLetters(heading)
    .replace(/['’](?=[a-z])/g, " ")
    .replace(/[_–—.:?°]+/g, " ")
    .replace(/([a-z])\s*-\s*(?=[a-z])/g, "$1 ")
    .replace(/[a-z]+/g, (word) => ENGLISH.get(word) ?? word)
    .replace(/\b(?:of|the) the\b/g, "of")
    .replace(/\s+/g, " ")
    .trim();
}

/**
 * German, French, Norwegian, Danish, Swedish, Dutch, Spanish, Italian, Portuguese, Finnish, Icelandic: words of labels and
 * lists, from memory. Each line: the English word, then the others.
 */
const LINES = `
weight: gewicht poids vekt vaegt vikt peso paino thyngd massa
length: lange longueur lengde laengde langd lengte longitud largo lunghezza pituus lengd comprimento
metrage: lauflange laufmeter lopelengde lobelaengde loplangd looplengte metraje metraggio juoksevuus metrage lobelangde
ball: knauel strang strange pelote pelotes echeveau echeveaux noste noster nogle nogler nystan bol bollen ovillo ovillos madeja madejas gomitolo gomitoli matassa matasse kera keria vyyhti hnykill hnyklar hespe hespa harva dokke dokka
per: pro par por pr je auf
of: de du des di del della de la der des d von van av af
number: nummer numero num nro numer tal
colour: color colorway colourway farbe farben couleur coloris farge farve farg kleur colore colori vari litur cor nuance teinte kulor
name: naam nom navn namn nome nimi nafn bezeichnung designation benamning betegnelse
yarn: garn garne garen wolle wol laine lana hilo hilos filato filati fil fio lanka langan ull uld ullgarn ullargarn
quality: qualitat qualite kvalitet kwaliteit calidad qualita laatu gaedi qualidade
left: rest restant restante resterende ubrig igjen kvar tilbage jaljella eftir vorhanden kvarvarande reste rimanente
total: gesamt totalt totale totaal totaux yhteensa samtals insgesamt ialt tot
maker: hersteller fabricant fabrikant fabricante produttore produsent producent tillverkare valmistaja framleidandi leverandor marke merk marque marca merke maerke merkki
fibre: fiber fibers fibres faser fasern fibra fibras kuitu materiale material materiaal materiaali matiere zusammensetzung samenstelling sammensetning sammensaetning sammansattning composition composizione composicion koostumus innihald efni vezel composicao
note: notes notiz notizen bemerkung bemerkungen anmerkung anmerkungen kommentar kommentarer kommentare merknad merknader bemaerkning bemaerkninger anteckning anteckningar notat notater nota notas opmerking opmerkingen notitie notities observaciones observation observations remarque remarques commentaire commentaires commento commenti huomautus huomautukset muistiinpanot huom athugasemd athugasemdir
lot: lots partie farbpartie farbbad lote bagno lotto parti fargebad farvebad fargbad verfbad partij badnummer tintada varjayserae varjaysera era litun lota innfarging innfargingsparti indfarvning partinummer partinr badnr bain bain
lot number: partienummer partinummer partijnummer
quantity: anzahl antall antal aantal cantidad quantita quantite maara fjoldi stuckzahl quantidade stuck stk qty
amount: menge mengde mangd maengde hoeveelheid bestand vorrat lager beholdning existencias giacenza varasto restmenge
plies: strands faden trader tradar trad draden brins cabos capi lagen saikeet thraedir
thickness: starke garnstarke tykkelse garntykkelse tjocklek garntjocklek dikte garendikte grosor spessore paksuus vahvuus grofleiki thykkt grosseur epaisseur espessura
category: kategorie kategori categorie categoria luokka klasse klass flokkur
superwash: super wash
washing: wash washable care pflege waschen waschbar wasche entretien lavage vask tvatt wassen lavado lavaggio pesu thvottur vaskbar
hand dyed: handdyed handgefarbt handfarget handfarvet handfargad handfargat handgeverfd kasinvarjatty handlitad handlitun
weighed: gewogen pese veid vejet vagd pesado pesato punnittu vegid vagt
uncertainty: unsicherheit incertitude usikkerhet usikkerhed osakerhet onzekerheid incertidumbre incertezza epavarmuus ovissa
colour name: farbname farbbezeichnung fargenavn farvenavn fargnamn kleurnaam varinimi litarheiti colorname colourname
colour number: farbnummer farbnr fargenummer fargenr farvenummer farvenr fargnummer fargnr kleurnummer kleurnr varinumero litanumer litarnumer colornumber colournumber
colour code: farbcode fargekode farvekode fargkod kleurcode varikoodi litakodi farbkode hexcode colorcode colourcode
yarn name: garnname garnnavn garnnamn garennaam garnnafn yarnname
weight per ball: knauelgewicht nostevekt noglevaegt nystanvikt bolgewicht stranggewicht
length per ball: knauellange nostelengde noglelaengde nystanlangd bollengte
weight left: restgewicht restvekt restvaegt restvikt
total weight: gesamtgewicht totalvekt totalvaegt totalvikt totaalgewicht
metres: meter metern metros metri metria metra mtr
grams: gramm gramme grammes gramos grammi grammaa gram
ounces: unzen onces onzas
`;

const ENGLISH: ReadonlyMap<string, string> = new Map(
  LINES.trim()
    .split("\n")
    .flatMap((line) => {
      const [english, others] = line.split(": ") as [string, string];
      return others.split(" ").map((word) => [word, english] as const);
    }),
);
