#include <array>
#include <filesystem>

#include <fmt/format.h>

#include "viz/page.hpp"
#include "viz/report_parts.hpp"
#include "viz/svg_canvas.hpp"

namespace drumlin::viz {
namespace {

struct Term {
  const char* term;
  const char* meaning;
};

constexpr auto glossary = std::to_array<Term>({
    {"band", "where the truth is expected while the inputs lie within their own bands"},
    {"bead, dross, slag",
     "metal and oxide that set again under a thermal cut; slag is the heavy "
     "kind, which is knocked off, not ground"},
    {"bow, camber", "lengthwise arch of a sheet; its curve in its own plane"},
    {"burr",
     "metal that stands above the face at a cut edge: a thin, flexible feather or an "
     "upright wall with a root"},
    {"cover, Shore A", "elastic layer on the drum, and its hardness"},
    {"edge break, edge radius, edge size",
     "sharpness taken off; the circle that fits the worn "
     "edge; its extent along face and flank"},
    {"glazing, loading, dulling",
     "grains worn flat; gaps filled with metal; both make a belt take "
     "less"},
    {"grit and grading", "size of the grain and the scale by which it is named"},
    {"hold-down, grip margin", "what keeps a part in place; holding force over the tools' push"},
    {"interference", "how far the drum is set into the top of the part"},
    {"lane, gap", "track of parts across the width; distance between parts"},
    {"lay, Ra", "direction of the scratches; mean roughness"},
    {"leading, trailing, side edge; rim", "edges by the direction of feed; the edge of a hole"},
    {"line load", "force of the drum on the part per millimetre of its width"},
    {"margin", "distance to the nearer limit; negative outside it"},
    {"micro-joint, tab, stub", "uncut bridge in the nest, and what is left of it"},
    {"nip", "strip in which drum and part touch"},
    {"oxide film, scale", "layer on a flank that was cut hot; paint comes off with it"},
    {"penetration, make-up", "overlap of a brush with the part; moving it in as it wears"},
    {"run-out", "drum that does not turn true"},
    {"secondary burr, lip", "burr pushed over the edge or into a hole by finishing"},
    {"serration, land", "grooves in a cover, and what stands between them"},
    {"tint, burn", "colour of an oxidised face; damage, seen or not"},
});

}  // namespace

std::string report_words(const sim::Result& result) {
  std::string terms = "<dl>\n";
  for (const Term& term : glossary)
    terms += fmt::format("<dt>{}</dt><dd>{}</dd>\n", term.term, term.meaning);
  terms += "</dl>\n";
  return section_html(
      "words", "Words and sources",
      fold_html("Words of the trade", terms) +
          fold_html(
              "The case, as it was read",
              fmt::format("<pre tabindex=\"0\" role=\"group\" aria-label=\"Text of the case\">"
                          "{}</pre>\n",
                          escaped(result.provenance.case_text))) +
          report_numbers(result));
}

std::string report_footer(const sim::Result& result) {
  const sim::Provenance& from = result.provenance;
  // The name only: where the file lay is nobody's business.
  const std::string file = std::filesystem::path(from.case_file).filename().string();
  return fmt::format("<p>drumlin {}, {} model{}{}, seed {}.<br>SHA-256 of the case: {}.</p>\n",
                     escaped(from.version), escaped(result.model), file.empty() ? "" : ", case ",
                     escaped(file), from.seed, escaped(from.case_sha256));
}

}  // namespace drumlin::viz
