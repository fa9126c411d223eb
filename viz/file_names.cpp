#include "viz/file_names.hpp"

#include <set>

#include <fmt/format.h>

namespace drumlin::viz {
namespace {

std::string plain(std::string_view name) {
  std::string out;
  for (const char c : name) {
    const bool keep = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                      c == '.' || c == '_' || c == '-';
    if (keep)
      out += c;
    else if (!out.empty() && out.back() != '-')
      out += '-';
  }
  while (!out.empty() && (out.back() == '-' || out.back() == '.'))
    out.pop_back();
  while (!out.empty() && out.front() == '.')
    out.erase(0, 1);
  return out.empty() ? "unnamed" : out;
}

}  // namespace

std::vector<std::string> file_names(const std::vector<std::string>& names) {
  std::set<std::string> taken;
  std::vector<std::string> out;
  for (const std::string& name : names) {
    const std::string base = plain(name);
    std::string free = base;
    for (int i = 2; !taken.insert(free).second; ++i)
      free = fmt::format("{}-{}", base, i);
    out.push_back(free);
  }
  return out;
}

std::vector<std::string> section_files(const sim::Result& result) {
  std::vector<std::string> names;
  for (const sim::SectionRecord& section : result.sections)
    names.push_back(section.name);
  return file_names(names);
}

}  // namespace drumlin::viz
