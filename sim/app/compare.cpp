#include "sim/compare.hpp"

#include <iostream>
#include <map>

#include <fmt/format.h>

#include "cases/reader.hpp"
#include "cases/written_values.hpp"
#include "sim/app/commands.hpp"
#include "sim/app/compare_text.hpp"
#include "sim/app/computed.hpp"
#include "sim/app/exit_codes.hpp"
#include "sim/app/progress.hpp"
#include "sim/app/stop_signal.hpp"
#include "sim/app/terminal.hpp"
#include "sim/app/user_fault.hpp"
#include "viz/compare_page.hpp"
#include "viz/page_file.hpp"

namespace drumlin::app {
namespace {

constexpr std::size_t fewest = 2;
constexpr std::size_t most = 6;  // more do not fit beside each other

void expect_cases(const CompareCommand& command) {
  if (command.case_files.size() < fewest || command.case_files.size() > most)
    throw InputError(fmt::format("compare takes {} to {} cases, not {}", fewest, most,
                                 command.case_files.size()));
}

void expect_place(const CompareCommand& command) {
  if (command.out.empty()) return;
  for_the_user([&] { viz::expect_page_writable(command.out, command.overwrite); });
}

/// Keys in which the files differ, in the order in which the first file has them.
std::vector<viz::InputDifference> input_differences(const std::vector<sim::Setup>& setups) {
  std::vector<std::string> order;
  std::map<std::string, std::vector<std::string>> values;
  for (std::size_t i = 0; i < setups.size(); ++i)
    for (const cases::WrittenValue& written :
         cases::written_values(setups[i].scenario.text, setups[i].scenario.file)) {
      auto& row = values[written.key];
      if (row.empty()) {
        row.resize(setups.size());
        order.push_back(written.key);
      }
      row[i] = written.text;
    }
  std::vector<viz::InputDifference> differences;
  for (const std::string& key : order) {
    const auto& row = values[key];
    if (key == "title" || std::equal(row.begin() + 1, row.end(), row.begin())) continue;
    differences.push_back({key, row});
  }
  return differences;
}

void write_page(const viz::ComparedCases& cases, const CompareCommand& command) {
  if (command.out.empty()) return;
  for_the_user([&] {
    viz::write_page(command.out, viz::compare_page(cases, command.answers), command.overwrite);
  });
}

}  // namespace

int carry_out(const CompareCommand& command) {
  expect_cases(command);
  expect_place(command);
  std::vector<sim::Setup> setups;
  for (const auto& file : command.case_files)
    setups.push_back(sim::set_up(cases::read(file)));
  const StopOnSignal stop;
  ProgressLine line(stderr, !command.quiet && stderr_is_terminal());
  viz::ComparedCases compared;
  std::vector<sim::CaseFacts> facts;
  for (std::size_t i = 0; i < setups.size(); ++i) {
    const auto count = static_cast<double>(setups.size());
    const auto before = static_cast<double>(i);
    compared.results.push_back(
        computed(setups[i], line, stop.token(), {before / count, (before + 1) / count}));
    facts.push_back(sim::facts_of(setups[i], compared.results.back(),
                                  static_cast<char>('A' + static_cast<int>(i))));
  }
  line.wipe();
  compared.comparison = sim::compare(std::move(facts));
  compared.inputs = input_differences(setups);
  write_page(compared, command);
  if (!command.quiet) std::cout << compare_text(compared, stdout_style());
  if (!command.quiet && !command.out.empty())
    std::cout << "\nThe page: " << command.out.string() << '\n';
  return done;
}

}  // namespace drumlin::app
