#include "viz/kept_result.hpp"

#include <fstream>
#include <iterator>
#include <stdexcept>
#include <system_error>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "viz/hdf5_reader.hpp"
#include "viz/summary_json.hpp"

namespace drumlin::viz {
namespace fs = std::filesystem;
namespace {

using Json = nlohmann::ordered_json;

[[noreturn]] void fail(const fs::path& file, const std::string& what) {
  throw std::runtime_error(fmt::format("{}: {}", file.string(), what));
}

void expect_file(const fs::path& file) {
  std::error_code error;
  if (!fs::is_regular_file(file, error))
    fail(file,
         "is not there; drumlin run writes it into every folder of results, so this is none, "
         "or only a part of one");
}

Json read_summary(const fs::path& dir) {
  const fs::path file = dir / "summary.json";
  expect_file(file);
  std::ifstream in(file, std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  if (!in) fail(file, "cannot be read");
  Json summary = Json::parse(text, nullptr, false);
  if (summary.is_discarded()) fail(file, "is not whole: it is no JSON any more");
  if (!summary.is_object() || !summary.contains("provenance") ||
      !summary["provenance"].is_object() ||
      summary["provenance"].value("case_sha256", Json()).type() != Json::value_t::string)
    fail(file, "does not say of which case it is (provenance.case_sha256)");
  return summary;
}

std::string shown(const Json& value) {
  constexpr std::size_t most = 60;
  std::string text = value.dump(-1, ' ', false, Json::error_handler_t::replace);
  if (text.size() > most) text = text.substr(0, most) + "...";
  return text;
}

/// Every path at which two trees part.
void compare(const Json& was, const Json& is, const std::string& path,
             std::vector<std::string>& moved) {
  const auto below = [&](const std::string& key) { return path.empty() ? key : path + "." + key; };
  if (was.is_object() && is.is_object()) {
    for (const auto& [key, value] : was.items()) {
      if (below(key) == "provenance.wall_s") continue;
      if (is.contains(key))
        compare(value, is[key], below(key), moved);
      else
        moved.push_back(fmt::format("{} was {} and is not there now", below(key), shown(value)));
    }
    for (const auto& [key, value] : is.items())
      if (!was.contains(key) && below(key) != "provenance.wall_s")
        moved.push_back(fmt::format("{} was not there and is {} now", below(key), shown(value)));
  } else if (was.is_array() && is.is_array() && was.size() == is.size()) {
    for (std::size_t i = 0; i < was.size(); ++i)
      compare(was[i], is[i], fmt::format("{}[{}]", path, i), moved);
  } else if (was != is) {
    moved.push_back(fmt::format("{} was {} and is {} now", path, shown(was), shown(is)));
  }
}

}  // namespace

KeptCase kept_case(const fs::path& dir) {
  std::error_code error;
  if (!fs::exists(dir, error)) fail(dir, "is not there; expected a folder that drumlin run wrote");
  if (!fs::is_directory(dir, error))
    fail(dir, "is a file; expected a folder that drumlin run wrote");
  const fs::path file = dir / "results.h5";
  expect_file(file);
  const auto reader = [&] {
    try {
      return H5Reader(file);
    } catch (const std::runtime_error&) {
      fail(file, "cannot be read as HDF5: it is cut off, damaged, or something else");
    }
  }();
  if (reader.attribute("/", "format") != "drumlin result")
    fail(file, "is an HDF5 file, but not one of drumlin's results");
  if (reader.number("/", "format_version") != 1)
    fail(file, "is of a format that this version does not know (expected format_version 1)");
  const auto text = reader.text("case/text");
  const auto sha256 = reader.text("case/sha256");
  if (!text || !sha256) fail(file, "is damaged: the case is not in it (case/text, case/sha256)");
  const Json summary = read_summary(dir);
  if (summary["provenance"]["case_sha256"].get<std::string>() != *sha256)
    fail(dir / "summary.json",
         "belongs to another case than results.h5 beside it: the checksums of their cases differ");
  return {*text, *sha256, reader.attribute("case", "file").value_or("case.toml"),
          reader.text("provenance/version").value_or("unknown")};
}

std::vector<std::string> moved_values(const fs::path& dir, const sim::Result& result) {
  const Json was = read_summary(dir);
  // Through text and back, as the file went.
  const Json is = Json::parse(summary_json(result, [](const std::string&) {
                              }).dump(-1, ' ', false, Json::error_handler_t::replace));
  std::vector<std::string> moved;
  compare(was, is, "", moved);
  return moved;
}

}  // namespace drumlin::viz
