#include "viz/study/header_json.hpp"

#include <stdexcept>

#include "viz/json_values.hpp"

namespace drumlin::viz {
namespace {

using Kind = sim::StudyColumn::Kind;

Json column_json(const sim::StudyColumn& column) {
  return {{"name", column.name},
          {"unit", column.unit},
          {"meaning", column.meaning},
          {"role", column.role},
          {"text", column.kind == Kind::text}};
}

sim::StudyColumn column_of(const Json& json) {
  return {.name = json.at("name"),
          .unit = json.at("unit"),
          .meaning = json.at("meaning"),
          .role = json.at("role"),
          .kind = json.at("text").get<bool>() ? Kind::text : Kind::number};
}

}  // namespace

std::string header_json(const sim::StudyHeader& header) {
  Json json = {{"identity", header.identity},
               {"version", header.version},
               {"model", header.model},
               {"case", header.case_text},
               {"case_sha256", header.case_sha256},
               {"study_sha256", header.study_sha256},
               {"notes", header.notes},
               {"study", header.study_text},
               {"seed", header.seed},
               {"rows", header.rows},
               {"rows_per_chunk", header.rows_per_chunk},
               {"columns", Json::array()}};
  for (const sim::StudyColumn& column : header.columns)
    json["columns"].push_back(column_json(column));
  // Bytes of a text that are no UTF-8 cannot be kept in JSON; they are not what rows depend on.
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

sim::StudyHeader header_from_json(const std::string& text) {
  try {
    const Json json = Json::parse(text);
    sim::StudyHeader header;
    header.identity = json.at("identity");
    header.version = json.at("version");
    header.model = json.at("model");
    header.case_text = json.at("case");
    header.case_sha256 = json.at("case_sha256");
    header.study_text = json.at("study");
    header.study_sha256 = json.at("study_sha256");
    header.notes = json.at("notes").get<std::vector<std::string>>();
    header.seed = json.at("seed");
    header.rows = json.at("rows");
    header.rows_per_chunk = json.at("rows_per_chunk");
    for (const Json& column : json.at("columns"))
      header.columns.push_back(column_of(column));
    if (header.rows_per_chunk == 0) throw std::runtime_error("no rows in a chunk");
    return header;
  } catch (const Json::exception& error) {
    throw std::runtime_error(std::string("no header of a study: ") + error.what());
  }
}

}  // namespace drumlin::viz
